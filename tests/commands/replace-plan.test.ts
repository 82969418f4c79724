import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeEach, describe, expect, it } from 'vitest'
import type { Chart } from '#src/chart/chart.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { runHere } from './run-here.ts'

const planFile = 'content/plans/extension.yaml'
let folder = ''

beforeEach(async () => {
  folder = await makeTemporaryFolder()
})

/** The shipped plan with something else in it, as a file. */
async function planWith(replacements: Readonly<Record<string, string>>): Promise<string> {
  const shipped = await readFile(planFile, 'utf8')
  const text = Object.entries(replacements).reduce((so, [from, to]) => so.replace(from, to), shipped)
  const file = join(await makeTemporaryFolder(), 'plan.yaml')
  await writeFile(file, text)
  return file
}

async function run(...args: readonly string[]): Promise<Awaited<ReturnType<typeof runHere>>> {
  return runHere(['enrol', ...args], { DATA_DIR: folder })
}

describe('enrol --instead-of', () => {
  it('puts the plan in the place of the client’s own, with the reason in the record', async () => {
    await run(planFile)
    const ran = await run(await planWith({ 'max_rung: 5': 'max_rung: 3' }), '--instead-of', 'Orla Tiernan', '--because', 'bridge not wanted')
    expect(ran).toEqual({ status: 0, complaints: [], printed: ['Orla Tiernan has another plan. It counts from the next session; the therapist and the client are told.'] })
    const { chart, entries } = await stored()
    expect(chart.plan?.ladders.map(({ maxRung }) => maxRung)).toEqual([3])
    expect(entries).toEqual([['Maren Holt', 'bridge not wanted']])
  })

  it.each([
    ['no such client', {}, ['--instead-of', 'Noor Lindqvist', '--because', 'seen'], /^No client is called Noor Lindqvist\. Write the name as in the plan, or the id\.$/],
    ['another client’s plan', { 'name: Orla Tiernan': 'name: Noor Lindqvist' }, ['--instead-of', 'Orla Tiernan', '--because', 'seen'], /^client\.name in the plan is not the name/],
    ['no reason', {}, ['--instead-of', 'Orla Tiernan'], /^--instead-of needs --because REASON/],
    ['a reason of blanks', {}, ['--instead-of', 'Orla Tiernan', '--because', '  '], /^--instead-of needs --because REASON/],
    ['a reason and no client', {}, ['--because', 'seen'], /^--because goes with --instead-of CLIENT/],
    ['a plan that cannot be carried out', { 'harness_kg: 0.4': 'harness_kg: 40' }, ['--instead-of', 'Orla Tiernan', '--because', 'seen'], /harness_kg/],
  ] as const)('refuses %s and changes nothing', async (_title, replacements, options, complaint) => {
    await run(planFile)
    const before = (await stored()).chart
    const ran = await run(await planWith(replacements), ...options)
    expect([ran.status, ran.printed]).toEqual([2, []])
    expect(ran.complaints.join('\n')).toMatch(complaint)
    expect((await stored()).chart).toEqual(before)
  })

  it('asks for the id where two clients have one name', async () => {
    await run(planFile)
    await run(planFile)
    const ran = await run(planFile, '--instead-of', 'Orla Tiernan', '--because', 'seen')
    const ids = /chart-[0-9a-f]{12}/.exec(ran.complaints.join())
    expect(ran.complaints.join()).toMatch(/^2 clients are called Orla Tiernan\. Write the id instead: chart-/)
    expect((await run(planFile, '--instead-of', String(ids?.[0]), '--because', 'seen')).status).toBe(0)
  })
})

/** The only chart, with who amended it and why. */
async function stored(): Promise<{ readonly chart: Chart; readonly entries: readonly (readonly [string, unknown])[] }> {
  const store = createLowdbStore({ folder, steps: documentMigrations })
  await store.open()
  try {
    const [head] = await store.heads('chart')
    if (!head) throw new Error('no chart')
    const chart = await store.read<Chart>(head.id)
    if (!chart) throw new Error('no chart')
    const amended = (await store.entries(head.id)).filter(({ kind }) => kind === 'plan-amended')
    return { chart, entries: amended.map(({ by, data }) => [by, data.reason] as const) }
  } finally {
    await store.close()
  }
}
