// `npm run bench`: ratios within one run, since no two machines are alike. `--json` prints one figure a line, `--full` plays
// 1,000 virtual clients instead of 120, `--only PATTERN` runs the measurements whose name holds it. Ends with 1 where a limit
// does not hold.
import { parseArgs } from 'node:util'
import { existsSync, readFileSync } from 'node:fs'
import { productOf } from '#src/app.ts'
import type { Content } from '#src/content/content.ts'
import { loadContent } from '#src/content/load-content.ts'
import { readPlan } from '#src/content/read-plan.ts'
import { measureAnswers } from './answer-cost.ts'
import { measureCrowd } from './embedded/crowd.ts'
import { measureDuePerTick } from './embedded/due-per-tick.ts'
import { measureDurableAnswer, measureLargeClinic, measureLateAnswers } from './embedded/durable-answer.ts'
import { createPasts } from './embedded/past-client.ts'
import { measureStart } from './embedded/start-cost.ts'
import { measureWriteLoad } from './embedded/write-load.ts'
import type { Figure } from './figure.ts'
import { measureAnswerRate } from './postgres/answer-rate.ts'
import { measureTwoWorkers } from './postgres/two-workers.ts'
import { measureReading } from './reading-cost.ts'
import { measureClients } from './virtual-clients.ts'

const { values } = parseArgs({
  options: { json: { type: 'boolean', default: false }, full: { type: 'boolean', default: false }, only: { type: 'string', default: '' } },
})
const path = ['content/plans/all-directions.yaml', 'content/plans/extension.yaml'].find((plan) => existsSync(plan)) ?? ''
const content: Content = { ...loadContent('content'), signature: { kind: 'demo' } }
const plan = readPlan(readFileSync(path, 'utf8'), path, content)
const product = productOf(content)
const pasts = createPasts(plan, product)

/** Those of a PostgreSQL server stand in a folder of their own beside `embedded`, and here under names of their own. */
const measurements: Readonly<Record<string, () => readonly Figure[] | Promise<readonly Figure[]>>> = {
  reading: () => measureReading(content),
  step: () => measureAnswers(plan, content),
  'virtual-clients': () => measureClients(plan, content, values.full ? 1000 : 120),
  'embedded-answer': () => measureDurableAnswer({ product, pasts }),
  'embedded-late-answer': () => measureLateAnswers({ product, pasts }),
  'embedded-large-clinic': () => measureLargeClinic({ product, pasts }),
  'embedded-due': () => measureDuePerTick(),
  'embedded-start': () => measureStart(pasts),
  'embedded-write-load': () => measureWriteLoad(pasts),
  crowd: () => measureCrowd(),
  'postgres-answers': () => measureAnswerRate(plan, content),
  'postgres-workers': () => measureTwoWorkers(plan, content),
}

const chosen = Object.keys(measurements).filter((name) => name.includes(values.only))
if (chosen.length === 0) {
  console.error(`--only ${values.only} names none of: ${Object.keys(measurements).join(', ')}.`)
  process.exit(2)
}
let hold = true
for (const name of chosen) {
  const figures = (await measurements[name]?.()) ?? []
  hold &&= figures.every(({ holds }) => holds)
  for (const figure of figures) console.log(values.json ? lineOf(figure) : row(figure))
}
process.exitCode = hold ? 0 : 1

function lineOf({ name, value, limit, holds }: Figure): string {
  return JSON.stringify({ name, value, limit, holds })
}

function row({ name, value, limit, side, holds }: Figure): string {
  const bound = limit === null ? '' : `at ${side ?? 'most'} ${limit}`
  return [name.padEnd(100), value.toFixed(2).padStart(8), bound.padEnd(13), holds ? '' : 'DOES NOT HOLD'].join('  ').trimEnd()
}
