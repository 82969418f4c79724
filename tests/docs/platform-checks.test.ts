// The table of what networks, stores and clocks do names tests and scripts: each of them has to exist, or nothing proves the row.
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { testTitlesIn } from '#tests/support/test-titles.ts'

const heading = '## What networks, stores and clocks do, and the test for each\n'
const section = readFileSync('DEVELOPERS.md', 'utf8').split(heading)[1]?.split(/^## /mu)[0] ?? ''
const rows = [...section.matchAll(/^\| (?<check>\d+) \| (?<holds>[^|]+) \| (?<proven>[^|]+) \|$/gmu)].map(({ groups }) => ({
  check: Number(groups?.check),
  holds: groups?.holds ?? '',
  proofs: groups?.proven === '–' ? [] : (groups?.proven ?? '').split('<br>'),
}))
const proofs = rows.flatMap((row) => row.proofs.map((proof) => ({ check: row.check, proof })))
const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { readonly scripts: Readonly<Record<string, string>> }

/** A figure is found by its name in the script's own files. */
function faultOfScript(script: string, figure: string): string | null {
  if (!(script in scripts)) return `there is no script ${script}`
  const folder = `tests/${script}`
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.ts'))
  const isNamed = files.some((file) => readFileSync(`${folder}/${file}`, 'utf8').includes(figure))
  return isNamed ? null : `${folder} has no such figure`
}

/** Null where the proof stands; otherwise what is wrong with it. */
function faultOf(proof: string): string | null {
  const run = /^`npm run (?<script>\w+)`(?: – (?<figure>.+))?$/u.exec(proof)?.groups
  if (run?.script !== undefined) return faultOfScript(run.script, run.figure ?? '')
  const { file = '', title = '' } = /^`(?<file>tests\/[^`]+)` – (?<title>.+)$/u.exec(proof)?.groups ?? {}
  if (!existsSync(file)) return `there is no file ${file}`
  return testTitlesIn(file).includes(title) ? null : `${file} has no such test`
}

describe('the checks of networks, stores and clocks', () => {
  it('are 43, each once and in order', () => {
    expect(rows.map(({ check }) => check)).toEqual(Array.from({ length: 43 }, (_, index) => index + 1))
  })

  it('are proven by something, save those of what is not built, which say so', () => {
    const unproven = rows.filter(({ proofs }) => proofs.length === 0)
    expect(unproven.map(({ check }) => check)).toEqual([24, 43])
    expect(unproven.filter(({ holds }) => !holds.includes('Not built'))).toEqual([])
  })

  it.each(proofs)('name for check $check what is there: $proof', ({ proof }) => {
    expect(faultOf(proof)).toBeNull()
  })
})
