// What /healthz and /metrics say of a running clinic, asked over a real listener.
import { afterEach, describe, expect, it } from 'vitest'
import { newChart, type Chart } from '#src/chart/chart.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { headOf } from '#src/chart/head.ts'
import type { Alert } from '#src/chart/alert.ts'
import { openListener } from '#src/commands/start/open-listener.ts'
import { createWatch, type Watch } from '#src/commands/start/watch/watch.ts'
import type { RunningState } from '#src/commands/status/running-state.ts'
import type { WaitingSends } from '#src/delivery/delivery.ts'
import { brandAs, type AlertId, type DocumentId, type EventId } from '#src/domain/identifier.ts'
import type { Channel, Receive } from '#src/ports/channel.ts'
import { StoreError, type Store } from '#src/ports/store.ts'
import { createMemoryDisk } from '#src/stores/memory/memory-disk.ts'
import { createMemoryStore } from '#src/stores/memory/memory-store.ts'
import { ManualClock } from '#tests/support/manual-clock.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'

const at = Date.parse('2026-01-07T12:00:00Z')
const minute = 60_000
const chartId = brandAs<DocumentId>('chart-00000000c11e')

const closers: (() => Promise<void>)[] = []
afterEach(async () => {
  for (const close of closers.splice(0)) await close()
})

interface Opened {
  readonly watch: Watch
  readonly clock: ManualClock
  readonly store: Store
  heard: RunningState['heard']
  /** How long, in ms, the next steps of the even clock are. */
  readonly steps: number[]
  ask(path: string, headers?: Record<string, string>): Promise<Response>
  metric(line: string): Promise<string | undefined>
}

async function open(patch: { store?: Store; host?: string; secret?: string } = {}): Promise<Opened> {
  const clock = new ManualClock(at)
  const steps: number[] = []
  let evenMs = 0
  const nowMs = (): number => (evenMs += steps.shift() ?? 0)
  const opened: { heard: RunningState['heard'] } = { heard: [{ channel: 'telegram', at }] }
  const parts = { clock, machineClock: clock, wait: clock.wait, nowMs, heard: () => opened.heard }
  const given = patch.store ?? createMemoryStore(createMemoryDisk(), documentMigrations)
  const watch = createWatch({ ...parts, store: given, host: patch.host ?? '127.0.0.1', secret: patch.secret ?? null })
  if (patch.store === undefined) await watch.store.open()
  const failed = (error: Error): never => {
    throw error
  }
  const listener = await openListener({ host: '127.0.0.1', port: 0, routes: watch.routes, log: new RecordingLog(), failed })
  closers.push(() => listener.close())
  const ask = (path: string, headers: Record<string, string> = {}): Promise<Response> => fetch(`${listener.address}${path}`, { headers })
  return Object.assign(opened, {
    watch,
    clock,
    steps,
    store: watch.store,
    ask,
    async metric(name: string) {
      const text = await (await ask('/metrics')).text()
      return text.split('\n').find((line) => line.startsWith(`${name} `) || line.startsWith(`${name}{`))
    },
  })
}

const nothingWaits = { waiting: () => [] }
const healthOf = async ({ ask }: Opened): Promise<readonly [number, unknown]> => {
  const response = await ask('/healthz')
  return [response.status, await response.json()]
}

/** A store that is asked in vain. */
function failing(how: () => Promise<never>): Store {
  return Object.assign(createMemoryStore(createMemoryDisk(), documentMigrations), { nextDueAt: how, heads: how })
}

function chart(): Chart {
  const blank = { sign: null, title: 'New numbness of an arm', words: 'my arm went numb', isConfirmed: true, during: null, told: null, clientSaid: null, contacted: null, sendings: 1 }
  const alert = (id: string, level: Alert['level'], acknowledged: Alert['acknowledged']): Alert => ({
    ...blank, id: brandAs<AlertId>(id), level, raisedAt: at, acknowledged, sentTo: [], unreached: [], hasReachedNobody: false,
  })
  const acknowledged = { by: 'Maren Holt', at }
  return { ...newChart(chartId), standing: 'active', alerts: [alert('a1', 'emergency', null), alert('a2', 'urgent', acknowledged), alert('a3', 'urgent', null)] }
}

async function put(store: Store, document: Chart, dueAt: number | null): Promise<void> {
  const head = { ...headOf(document), nextDueAt: dueAt }
  await store.apply(document.id, brandAs<EventId>('e1'), () => ({ document, head, entries: [], effects: [], closesVolume: false }))
}

describe('/healthz', () => {
  it('is 503 before the delivery runs, 200 while it does, and 503 once it stops', async () => {
    const opened = await open()
    const before = await healthOf(opened)
    opened.watch.began(nothingWaits)
    const running = await healthOf(opened)
    opened.watch.stopping()
    expect([before, running, await healthOf(opened)]).toEqual([
      [503, { healthy: false, wrong: ['starting'] }],
      [200, { healthy: true, wrong: [] }],
      [503, { healthy: false, wrong: ['stopping'] }],
    ])
  })

  it.each<readonly [string, number | null, readonly string[]]>([
    ['five minutes ago', at - 5 * minute, []],
    ['more than five minutes ago', at - 5 * minute - 1, ['telegram-unheard']],
    ['never', null, ['telegram-unheard']],
  ])('names a network that was heard %s', async (_, heardAt, wrong) => {
    const opened = await open()
    opened.watch.began(nothingWaits)
    opened.heard = [{ channel: 'telegram', at: heardAt }]
    expect(await healthOf(opened)).toEqual([wrong.length === 0 ? 200 : 503, { healthy: wrong.length === 0, wrong }])
  })

  it('names the store where it fails, and where it does not answer in five seconds', async () => {
    const broken = await open({ store: failing(() => Promise.reject(new StoreError('unavailable', 'gone'))) })
    broken.watch.began(nothingWaits)
    const silent = await open({ store: failing(() => new Promise(() => {})) })
    silent.watch.began(nothingWaits)
    const asked = healthOf(silent)
    while (!silent.clock.waits.includes(5_000)) await new Promise((resolve) => setImmediate(resolve))
    await silent.clock.advance(5_000)
    expect([await healthOf(broken), await asked]).toEqual([[503, { healthy: false, wrong: ['store'] }], [503, { healthy: false, wrong: ['store'] }]])
  })

  it('asks the store once a second at most, however often it is asked', async () => {
    let asked = 0
    const store = failing(async () => {
      asked += 1
      throw new StoreError('unavailable', 'gone')
    })
    const opened = await open({ store })
    await Promise.all(Array.from({ length: 20 }, () => opened.ask('/healthz')))
    const first = asked
    await opened.clock.advance(1_000)
    await opened.ask('/healthz')
    expect([first, asked]).toEqual([1, 2])
  })

  it('is open without a secret, while /metrics asks for one', async () => {
    const opened = await open({ host: '0.0.0.0', secret: 'a long demo secret' })
    opened.watch.began(nothingWaits)
    const metrics = async (headers: Record<string, string> = {}): Promise<number> => (await opened.ask('/metrics', headers)).status
    const asked = [await metrics(), await metrics({ Authorization: 'Bearer a long demo secre' }), await metrics({ Authorization: 'Bearer a long demo secret' })]
    expect([(await opened.ask('/healthz')).status, ...asked]).toEqual([200, 401, 401, 200])
  })
})

describe('/metrics', () => {
  it('is not served beyond this machine where no secret is set', async () => {
    expect((await (await open({ host: '0.0.0.0' })).ask('/metrics')).status).toBe(403)
  })

  it('counts open alerts by level, and tells the lag of the most overdue timer', async () => {
    const opened = await open()
    await put(opened.store, chart(), at - 90_000)
    const lines = (await (await opened.ask('/metrics')).text()).split('\n')
    expect(lines.filter((line) => line.startsWith('nuchal_open_alerts{') && !line.endsWith(' 0'))).toEqual([
      'nuchal_open_alerts{level="urgent",acknowledged="no"} 1',
      'nuchal_open_alerts{level="urgent",acknowledged="yes"} 1',
      'nuchal_open_alerts{level="emergency",acknowledged="no"} 1',
    ])
    expect(lines).toContain('nuchal_due_lag_seconds 90')
  })

  it('counts what waits for a network, with the age of the oldest, and when the network was heard', async () => {
    const opened = await open()
    const waiting: WaitingSends[] = [{ channel: 'telegram', urgency: 'alert', count: 2, since: at - 30_000 }]
    opened.watch.began({ waiting: () => waiting })
    const text = await (await opened.ask('/metrics')).text()
    for (const line of [
      'nuchal_undelivered_messages{network="telegram",urgency="alert"} 2',
      'nuchal_undelivered_messages{network="telegram",urgency="reply"} 0',
      'nuchal_undelivered_oldest_age_seconds{network="telegram",urgency="alert"} 30',
      `nuchal_network_last_heard_timestamp_seconds{network="telegram"} ${at / 1000}`,
    ]) expect(text.split('\n')).toContain(line)
  })

  it('measures commits that were made, and counts those that failed', async () => {
    const opened = await open()
    opened.steps.push(0, 200)
    await put(opened.store, chart(), null)
    // Known already: nothing was committed.
    await put(opened.store, chart(), null)
    const broken = await open({ store: Object.assign(failing(() => Promise.reject(new StoreError('unavailable', 'gone'))), { apply: () => Promise.reject(new StoreError('full', 'full')) }) })
    await put(broken.store, chart(), null).catch(() => undefined)
    expect([await opened.metric('nuchal_commit_duration_seconds_sum'), await opened.metric('nuchal_commit_duration_seconds_count')]).toEqual([
      'nuchal_commit_duration_seconds_sum 0.2',
      'nuchal_commit_duration_seconds_count 1',
    ])
    expect(await broken.metric('nuchal_commit_failures_total')).toBe('nuchal_commit_failures_total 1')
  })

  it('counts what came in and went out by what became of it, and events that were dropped', async () => {
    const opened = await open()
    let bringIn: Receive = async () => undefined
    const raw: Channel = {
      name: 'telegram',
      start: async (receive) => void (bringIn = receive),
      stop: async () => undefined,
      send: async () => ({ kind: 'unreachable' }),
      amend: () => Promise.reject(new Error('my arm is numb')),
      invitationLink: async () => '',
    }
    const channel = opened.watch.meter(raw)
    const to = { channel: 'telegram', address: '11' }
    await channel.start((inbound) => (inbound.kind === 'press' ? Promise.reject(new StoreError('full', 'full')) : Promise.resolve()), () => undefined)
    await bringIn({ kind: 'message', id: brandAs<EventId>('e1'), from: to, text: 'my arm is numb' })
    await bringIn({ kind: 'press', id: brandAs<EventId>('e2'), from: to, data: 'numb' }).catch(() => undefined)
    await channel.send(to, { text: 'numb', buttons: [] }, 'alert')
    await channel.amend(to, '1', 'numb').catch(() => undefined)
    opened.watch.noteParked()
    const text = await (await opened.ask('/metrics')).text()
    for (const line of [
      'nuchal_sends_total{network="telegram",kind="alert",outcome="unreachable"} 1',
      'nuchal_sends_total{network="telegram",kind="amend",outcome="threw"} 1',
      'nuchal_inbound_total{network="telegram",kind="message",outcome="taken"} 1',
      'nuchal_inbound_total{network="telegram",kind="press",outcome="failed"} 1',
      'nuchal_parked_events_total 1',
    ]) expect(text.split('\n')).toContain(line)
  })

  it('says that the store is away, and shows no old number as a new one', async () => {
    const opened = await open({ store: failing(() => Promise.reject(new StoreError('unavailable', 'gone'))) })
    const lines = (await (await opened.ask('/metrics')).text()).split('\n')
    expect(lines).toContain('nuchal_store_up 0')
    expect(lines).toContain('nuchal_due_lag_seconds Nan')
    expect(lines.filter((line) => line.startsWith('nuchal_open_alerts{'))).toEqual([])
  })

  it('holds no name, word, address or id of anybody, and only names of our own', async () => {
    const opened = await open()
    await put(opened.store, chart(), at)
    const text = await (await opened.ask('/metrics')).text()
    for (const secret of ['numb', 'Maren', 'Orla', chartId, 'c11e', 'a1']) expect(text).not.toContain(secret)
    const names = text.split('\n').flatMap((line) => /^([a-z_]+)[ {]/.exec(line)?.[1] ?? [])
    expect(names.length).toBeGreaterThan(20)
    expect(names.filter((name) => !name.startsWith('nuchal_'))).toEqual([])
  })
})
