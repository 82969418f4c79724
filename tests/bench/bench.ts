// `npm run bench`: ratios within one run, since no two machines are alike. `--json` prints one figure a line, `--full` plays
// 1,000 virtual clients instead of 120. Ends with 1 where a limit does not hold.
import { parseArgs } from 'node:util'
import { existsSync, readFileSync } from 'node:fs'
import type { Content } from '#src/content/content.ts'
import { loadContent } from '#src/content/load-content.ts'
import { readPlan } from '#src/content/read-plan.ts'
import { measureAnswers } from './answer-cost.ts'
import type { Figure } from './figure.ts'
import { measureReading } from './reading-cost.ts'
import { measureClients } from './virtual-clients.ts'

const { values } = parseArgs({ options: { json: { type: 'boolean', default: false }, full: { type: 'boolean', default: false } } })
const path = ['content/plans/all-directions.yaml', 'content/plans/extension.yaml'].find((plan) => existsSync(plan)) ?? ''
const content: Content = { ...loadContent('content'), signature: { kind: 'demo' } }
const plan = readPlan(readFileSync(path, 'utf8'), path, content)

const figures = [...measureReading(content), ...measureAnswers(plan, content), ...measureClients(plan, content, values.full ? 1000 : 120)]
for (const figure of figures) console.log(values.json ? JSON.stringify(figure) : row(figure))
process.exitCode = figures.every(({ holds }) => holds) ? 0 : 1

function row({ name, value, limit, holds }: Figure): string {
  return [name.padEnd(84), value.toFixed(2).padStart(8), limit === null ? '' : `at most ${limit}`.padEnd(13), holds ? '' : 'DOES NOT HOLD'].join('  ').trimEnd()
}
