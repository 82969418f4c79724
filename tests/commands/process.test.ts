import { readFile } from 'node:fs/promises'
import { describe, expect, it } from 'vitest'
import { readConfig } from '#src/config.ts'
import { openStore } from '#src/app.ts'
import { StoreError } from '#src/ports/store.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { runHere } from './run-here.ts'
import { runNuchal, startNuchal } from './run-nuchal.ts'

const plan = 'content/plans/extension.yaml'

describe('a command in a process of its own', () => {
  it('prints what it prints on standard output, complaints on standard error, and exits with its status', async () => {
    const [read, unknown] = await Promise.all([runNuchal(['read', '-my arm is numb', '--awaiting', 'pain', '--json']), runNuchal(['frobnicate'])])
    expect([read.status, read.err, JSON.parse(read.out)]).toEqual([
      0,
      '',
      { value: null, redFlags: [{ level: 'urgent', sign: 'arm-numbness' }], stop: false, understood: true },
    ])
    expect(unknown).toEqual({ status: 2, out: '', err: "unknown command 'frobnicate'. See --help.\n" })
  }, 120_000)

  it('invents the same clients from the same seed, one whole line each', async () => {
    const args = (seed: string): string[] => ['rehearse', '--plan', plan, '--virtual', '3', '--seed', seed, '--weeks', '4', '--json']
    const [first, again, other] = await Promise.all([runNuchal(args('7')), runHere(args('7')), runHere(args('8'))])
    const lines = first.out.trimEnd().split('\n').map((line) => JSON.parse(line) as { client: { number: number }; answers: { sessions: unknown[] }; sessions: unknown[] })

    expect([first.status, first.err]).toEqual([0, ''])
    expect(`${again.printed.join('\n')}\n`).toBe(first.out)
    expect(other.printed).not.toEqual(again.printed)
    expect(lines.map((line) => [line.client.number, line.sessions.length === line.answers.sessions.length])).toEqual([[1, true], [2, true], [3, true]])
  }, 120_000)
})

describe('start', () => {
  it('serves its page, keeps its data folder to itself, and ends with 0 on SIGTERM', async () => {
    const folder = await makeTemporaryFolder()
    const running = startNuchal(['start'], { DATA_DIR: folder, PORT: '0' })
    const [, address] = /open at (http:\S+)$/.exec((await running.nextLine()) ?? '') ?? []
    const page = await fetch(address!)
    expect([page.status, (await page.text()).startsWith('<!doctype html>')]).toEqual([200, true])

    const began = performance.now()
    const refusal = await openStore(readConfig({ DATA_DIR: folder })).open().then(() => null, (error: unknown) => error)
    const tookMs = performance.now() - began
    const second = await runNuchal(['enrol', plan], { DATA_DIR: folder })
    expect(refusal).toBeInstanceOf(StoreError)
    expect(tookMs).toBeLessThan(1000)
    expect({ ...second, err: second.err.split('\n') }).toEqual({ status: 2, out: '', err: [expect.stringContaining(folder), ''] })

    running.kill('SIGTERM')
    expect(await running.ended).toBe(0)
    const after = await runNuchal(['enrol', plan, '--json'], { DATA_DIR: folder })
    expect([after.status, after.err]).toEqual([0, ''])
    expect(JSON.parse(after.out)).toMatchObject({ client: 'Orla Tiernan', therapist: 'Maren Holt' })
    expect(JSON.parse(await readFile(`${folder}/demo-chat.json`, 'utf8'))).toBeTypeOf('object')
  }, 120_000)
})
