// How a clinic stands, for whoever runs it: counts and ids, beside the process that has the folder.
import { readdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { Alert } from '#src/chart/alert.ts'
import { newChart, type Chart } from '#src/chart/chart.ts'
import { newDesk } from '#src/chart/desk.ts'
import { headOf, type AnyDocument } from '#src/chart/head.ts'
import { openStore } from '#src/app.ts'
import { findStatus, type Status } from '#src/commands/status/find-status.ts'
import { printStatus, statusAsJson } from '#src/commands/status/print-status.ts'
import { keepRunningState, readRunningState, type RunningState } from '#src/commands/status/running-state.ts'
import { readConfig } from '#src/config.ts'
import type { WaitingSends } from '#src/delivery/delivery.ts'
import { brandAs, type AlertId, type DocumentId, type EffectId } from '#src/domain/identifier.ts'
import type { Effect } from '#src/domain/message.ts'
import { envelopeFormat, type Envelope } from '#src/stores/envelope.ts'
import { flush, ManualClock } from '#tests/support/manual-clock.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'
import { content, extensionPlan } from '#tests/support/sample-chain.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { runHere } from './run-here.ts'

const at = Date.parse('2026-01-07T12:00:00Z')
const minute = 60_000
const id = (name: string): DocumentId => brandAs<DocumentId>(name)
const chartId = id('chart-00000000c11e')
const { escalation } = content.triage

function enveloped(document: AnyDocument, owed: readonly Effect[] = []): Envelope {
  const { kind } = document
  return { format: envelopeFormat, kind, id: document.id, document, head: headOf(document), seen: [], owed: owed.map((effect) => ({ effect, attempts: 0 })), refs: [], entries: [], volumes: 0 }
}

function chart(patch: Partial<Chart> = {}): Chart {
  return { ...newChart(chartId), standing: 'active', plan: extensionPlan, ...patch }
}

function alert(patch: Partial<Alert>): Alert {
  const blank = { id: brandAs<AlertId>('a1'), sign: null, title: 'New numbness of an arm', words: 'my arm went numb', isConfirmed: true, during: null, told: null, clientSaid: null, contacted: null, sendings: 1 }
  return { ...blank, level: 'urgent', raisedAt: at, acknowledged: null, sentTo: [], unreached: [], hasReachedNobody: false, ...patch }
}

function running(patch: Partial<RunningState> = {}): RunningState {
  return { format: 1, at, isStopped: false, waiting: [], heard: [], ...patch }
}

function statusOf(envelopes: readonly Envelope[], state: RunningState | null = running()): Status {
  return findStatus({ documents: envelopes, running: state, escalation, at, machineAt: at })
}

const acknowledged = { by: 'Maren Holt', at }

describe('whether something needs a person', () => {
  const rows: readonly (readonly [string, boolean, Status])[] = [
    ['nothing is open', false, statusOf([enveloped(chart())])],
    ['an urgent alert of 119 minutes', false, statusOf([enveloped(chart({ alerts: [alert({ raisedAt: at - 119 * minute })] }))])],
    ['an urgent alert of two hours', true, statusOf([enveloped(chart({ alerts: [alert({ raisedAt: at - 120 * minute })] }))])],
    ['an acknowledged one of two hours', false, statusOf([enveloped(chart({ alerts: [alert({ raisedAt: at - 120 * minute, acknowledged })] }))])],
    ['an emergency of 9 minutes', false, statusOf([enveloped(chart({ alerts: [alert({ level: 'emergency', raisedAt: at - 9 * minute })] }))])],
    ['an emergency of 10 minutes', true, statusOf([enveloped(chart({ alerts: [alert({ level: 'emergency', raisedAt: at - 10 * minute })] }))])],
    ['a routine one of a week', false, statusOf([enveloped(chart({ alerts: [alert({ level: 'routine', raisedAt: at - 7 * 1440 * minute })] }))])],
    ['a fresh alert that arrived at nobody', true, statusOf([enveloped(chart({ alerts: [alert({ hasReachedNobody: true })] }))])],
    ['a timer due 5 minutes ago', false, statusOf([enveloped(chart({ timers: [{ kind: 'reminder', about: '', dueAt: at - 5 * minute }] }))])],
    ['a timer due longer ago', true, statusOf([enveloped(chart({ timers: [{ kind: 'reminder', about: '', dueAt: at - 5 * minute - 1 }] }))])],
    ['an alert waiting for a minute', false, statusOf([], running({ waiting: [{ channel: 'telegram', urgency: 'alert', count: 1, since: at - minute }] }))],
    ['an alert waiting for longer', true, statusOf([], running({ waiting: [{ channel: 'telegram', urgency: 'alert', count: 1, since: at - minute - 1 }] }))],
    ['a reply waiting for 5 minutes', false, statusOf([], running({ waiting: [{ channel: 'telegram', urgency: 'reply', count: 1, since: at - 5 * minute }] }))],
    ['a network heard 5 minutes ago', false, statusOf([], running({ heard: [{ channel: 'telegram', at: at - 5 * minute }] }))],
    ['a network heard longer ago', true, statusOf([], running({ heard: [{ channel: 'telegram', at: at - 5 * minute - 1 }] }))],
    ['a network never heard', true, statusOf([], running({ heard: [{ channel: 'telegram', at: null }] }))],
    ['somebody unreachable and somebody locked', false, statusOf([enveloped(chart({ isReachable: false, lock: { level: 'urgent', since: at } }))])],
  ]

  it.each(rows)('%s: %s', (_title, expected, { needsPerson }) => {
    expect(needsPerson).toBe(expected)
  })
})

describe('what status shows', () => {
  const send = (channel: string): Effect => ({ kind: 'send', id: brandAs<EffectId>('e#1'), to: { channel, address: '500' }, message: { text: 'my arm went numb', buttons: [] }, urgency: 'alert' })
  const tell: Effect = { kind: 'tell', id: brandAs<EffectId>('e#2'), to: id('clinic'), told: {} }
  const desk = { ...newDesk(id('desk-00000000aaaa'), 'en'), name: 'Maren Holt', isReachable: false, contact: { channel: 'telegram', address: '900' } }
  const open = chart({
    contact: { channel: 'telegram', address: '500' },
    lock: { level: 'emergency', since: at },
    alerts: [alert({ level: 'emergency', raisedAt: at - 70 * minute, hasReachedNobody: true }), alert({ level: 'routine', raisedAt: at - 3 * 1440 * minute })],
    timers: [{ kind: 'resend-alert', about: 'a1', dueAt: at - 30 * minute }],
  })
  const found = statusOf([enveloped(open, [send('telegram'), tell]), enveloped(desk)], null)

  it('is alerts, what is undelivered, who is unreachable, overdue timers and locks', () => {
    expect(printStatus(found).split('\n')).toEqual([
      'Process: unknown',
      'Open alerts: 2',
      '    chart-00000000c11e: routine, open for 3 days, not acknowledged',
      '  ! chart-00000000c11e: emergency, open for 1 h 10 min, not acknowledged, arrived at nobody',
      'Locked clients: 1',
      'Undelivered: 2 (some may have gone out just before the end)',
      '  ! telegram, alert: 1, oldest unknown',
      '  ! inside, alert: 1, oldest unknown',
      'Unreachable: 0 clients, 1 therapists',
      '    desk-00000000aaaa',
      'Overdue timers: 1',
      '  ! chart-00000000c11e, due 30 min ago',
      'Something needs a person: see the lines marked with !',
    ])
  })

  it('is no name, no words, no sign and no address, in either form', () => {
    const shown = `${printStatus(found)}\n${statusAsJson(found)}`
    const secrets = ['Orla', 'Tiernan', 'Maren', 'numb', ' arm', '"500"', '"900"', '112', '020']
    expect(secrets.filter((secret) => shown.toLowerCase().includes(secret.toLowerCase()))).toEqual([])
  })

  it('as JSON has instants that a script can read', () => {
    expect(JSON.parse(statusAsJson(found))).toMatchObject({
      at: '2026-01-07T12:00:00.000Z',
      alerts: [{ client: chartId, level: 'routine', since: '2026-01-04T12:00:00.000Z' }, { level: 'emergency', isLate: true, hasReachedNobody: true }],
      timers: { overdue: 1, oldest: { dueAt: '2026-01-07T11:30:00.000Z' } },
      needsPerson: true,
    })
  })

  it('tells a process that runs from one that ended, one that fell silent and none', () => {
    const states = [running(), running({ isStopped: true }), running({ at: at - 61_000 }), null].map((state) => statusOf([], state).process.state)
    expect(states).toEqual(['running', 'stopped', 'silent', 'unknown'])
  })

  it('goes by the documents for what is undelivered where the process does not run', () => {
    const stale = running({ isStopped: true, waiting: [{ channel: 'browser', urgency: 'reply', count: 3, since: at }] })
    const { undelivered } = statusOf([enveloped(chart(), [send('telegram'), send('telegram')])], stale)
    expect(undelivered).toEqual([{ channel: 'telegram', urgency: 'alert', count: 2, since: null, isLate: true }])
  })
})

describe('the command', () => {
  it('reads beside the process that has the folder, changes nothing there, and exits 0 where nothing is overdue', async () => {
    const folder = await makeTemporaryFolder()
    const environment = { DATA_DIR: folder }
    expect((await runHere(['enrol', 'content/plans/extension.yaml'], environment)).status).toBe(0)
    const store = openStore(readConfig(environment))
    await store.open()
    const before = await readdir(folder, { recursive: true })
    const [text, json] = [await runHere(['status'], environment), await runHere(['status', '--json'], environment)]
    const after = await readdir(folder, { recursive: true })
    await store.close()

    expect([text.status, json.status, text.complaints, json.complaints]).toEqual([0, 0, [], []])
    expect(text.printed[0]).toMatch(/^Process: unknown\nOpen alerts: 0\n/)
    expect(JSON.parse(json.printed[0]!)).toMatchObject({ alerts: [], undelivered: [], locked: 0, needsPerson: false })
    expect(after.toSorted()).toEqual(before.toSorted())
  })

  it('complains in a line of a folder in which nothing is stored, and exits 2', async () => {
    const { status, printed, complaints } = await runHere(['status'], { DATA_DIR: await makeTemporaryFolder() })
    expect([status, printed, complaints]).toEqual([2, [], [expect.stringMatching(/^Nothing is stored in DATA_DIR yet\./)]])
  })

  it('complains of a damaged document, and exits 2', async () => {
    const folder = await makeTemporaryFolder()
    await runHere(['enrol', 'content/plans/extension.yaml'], { DATA_DIR: folder })
    await writeFile(join(folder, 'documents', 'clinic.json'), '{"half')
    const { status, complaints } = await runHere(['status'], { DATA_DIR: folder })
    expect([status, complaints]).toEqual([2, [expect.stringContaining('clinic.json is damaged')]])
  })
})

describe('the state that a running process leaves', () => {
  it('is written at once and every 10 seconds, and says at the end that it stopped', async () => {
    const folder = await makeTemporaryFolder()
    const clock = new ManualClock(at)
    let waiting: readonly WaitingSends[] = []
    const state = keepRunningState({ folder, delivery: { waiting: () => waiting }, clock, wait: clock.wait, log: new RecordingLog(), heard: () => [{ channel: 'telegram', at }] })
    const first = await eventually(() => readRunningState(folder))
    waiting = [{ channel: 'telegram', urgency: 'alert', count: 1, since: at }]
    await whenWaiting(clock)
    await clock.advance(10_000)
    const second = await eventually(async () => {
      const read = await readRunningState(folder)
      return read?.at === at + 10_000 ? read : null
    })
    await whenWaiting(clock)
    await state.stop()

    expect(first).toEqual({ format: 1, at, isStopped: false, waiting: [], heard: [{ channel: 'telegram', at }] })
    expect(second.waiting).toEqual(waiting)
    expect(await readRunningState(folder)).toMatchObject({ isStopped: true, at: at + 10_000 })
    expect((await readdir(folder)).toSorted()).toEqual(['running.json'])
  })

  it('that is spoilt or of another make counts as none', async () => {
    const folder = await makeTemporaryFolder()
    await writeFile(join(folder, 'running.json'), '{"format":2}')
    expect(await readRunningState(folder)).toBeNull()
  })

  it('that cannot be written is complained of without ending anything', async () => {
    const folder = await makeTemporaryFolder()
    await writeFile(join(folder, 'a-file'), '')
    const log = new RecordingLog()
    const clock = new ManualClock(at)
    const state = keepRunningState({ folder: join(folder, 'a-file'), delivery: { waiting: () => [] }, clock, wait: clock.wait, log, heard: () => [] })
    await whenWaiting(clock)
    await state.stop()
    expect(new Set(log.events())).toEqual(new Set(['state-not-written']))
  })
})

/** A disk takes its own time, which no virtual clock shows; the test's own limit ends a wait in vain. */
async function eventually<T>(read: () => Promise<T | null>): Promise<T> {
  for (;;) {
    const found = await read()
    if (found !== null) return found
    await flush()
  }
}

async function whenWaiting(clock: ManualClock): Promise<void> {
  while (clock.waits.length === 0) await flush()
}
