// How a running clinic stands, for whoever keeps it running: /healthz and /metrics, over whatever listener there is.
import type { Delivery } from '#src/delivery/delivery.ts'
import type { Wait } from '#src/delivery/wait.ts'
import { urgencies } from '#src/domain/message.ts'
import type { Channel } from '#src/ports/channel.ts'
import type { Clock } from '#src/ports/clock.ts'
import type { HttpRoute } from '#src/ports/http-route.ts'
import type { Store } from '#src/ports/store.ts'
import type { RunningState } from '../../status/running-state.ts'
import { askInTime, countOpenAlerts, findDueLag } from './ask-store.ts'
import { findWrong, type Phase } from './health.ts'
import { meterChannel } from './meter-channel.ts'
import { meterStore } from './meter-store.ts'
import { createMeters, type Meters } from './meters.ts'
import { guardMetrics } from './metrics-access.ts'
import { shareRecent } from './share-recent.ts'

export interface WatchParts {
  readonly store: Store
  /** The clinic's time, which a demo moves on. */
  readonly clock: Clock
  /** The machine's time. */
  readonly machineClock: Clock
  readonly wait: Wait
  /** A clock that runs evenly, for durations, in ms. */
  readonly nowMs: () => number
  readonly heard: () => RunningState['heard']
  /** Where it is served decides who may read it. */
  readonly host: string
  readonly secret: string | null
}

export interface Watch {
  /** To be used in place of the store, so that its commits are counted. */
  readonly store: Store
  readonly routes: readonly HttpRoute[]
  meter<C extends Channel>(channel: C): C
  noteParked(): void
  /** The delivery runs. */
  began(delivery: Pick<Delivery, 'waiting'>): void
  stopping(): void
}

/** Our choice: /healthz is open, so nobody may work the store by asking. */
const healthForMs = 1_000
const countsForMs = 5_000

export function createWatch(parts: WatchParts): Watch {
  const { clock, heard, machineClock, nowMs, wait } = parts
  const meters = createMeters()
  const store = meterStore(parts.store, meters, nowMs)
  let delivery: Pick<Delivery, 'waiting'> | null = null
  let phase: Phase = 'starting'
  meters.startedAt.set(machineClock.now() / 1000)

  const askHealth = shareRecent(async () => (await askInTime(() => store.nextDueAt(), wait)) !== null, healthForMs, machineClock)
  const askCounts = shareRecent(
    () => askInTime(async () => ({ alerts: await countOpenAlerts(store), dueLagMs: await findDueLag(store, clock.now()) }), wait),
    countsForMs,
    machineClock,
  )

  const healthz: HttpRoute = {
    path: '/healthz',
    method: 'GET',
    refuse: () => null,
    async answer() {
      const doesStoreAnswer = await askHealth()
      const wrong = findWrong({ phase, doesStoreAnswer, heard: heard(), at: machineClock.now() })
      return { status: wrong.length === 0 ? 200 : 503, type: 'application/json', body: `${JSON.stringify({ healthy: wrong.length === 0, wrong })}\n` }
    },
  }
  const metrics: HttpRoute = {
    path: '/metrics',
    method: 'GET',
    refuse: guardMetrics(parts.host, parts.secret),
    async answer() {
      setStoreGauges(meters, (await askCounts())?.value ?? null)
      setWaiting(meters, heard(), delivery?.waiting() ?? [], clock.now())
      meters.residentMemory.set(process.memoryUsage.rss())
      return { status: 200, type: meters.registry.contentType, body: await meters.registry.metrics() }
    },
  }
  return {
    store,
    routes: [healthz, metrics],
    meter: (channel) => meterChannel(channel, meters),
    noteParked: () => meters.parked.inc(),
    began(running) {
      delivery = running
      phase = 'running'
    },
    stopping() {
      phase = 'stopping'
    },
  }
}

interface Counts {
  readonly alerts: Awaited<ReturnType<typeof countOpenAlerts>>
  readonly dueLagMs: number
}

/** What cannot be read is missing or NaN: an old number would look like a good one. */
function setStoreGauges({ isStoreUp, openAlerts, dueLag }: Meters, counts: Counts | null): void {
  isStoreUp.set(counts === null ? 0 : 1)
  openAlerts.reset()
  if (counts === null) return dueLag.set(Number.NaN)
  for (const { level, acknowledged, count } of counts.alerts) openAlerts.set({ level, acknowledged: acknowledged ? 'yes' : 'no' }, count)
  dueLag.set(counts.dueLagMs / 1000)
}

function setWaiting(meters: Meters, heard: RunningState['heard'], waiting: ReturnType<Delivery['waiting']>, now: number): void {
  meters.undelivered.reset()
  meters.undeliveredAge.reset()
  for (const { channel: network, at } of heard) {
    meters.lastHeard.set({ network }, (at ?? 0) / 1000)
    for (const urgency of urgencies) {
      meters.undelivered.set({ network, urgency }, 0)
      meters.undeliveredAge.set({ network, urgency }, 0)
    }
  }
  for (const { channel: network, urgency, count, since } of waiting) {
    meters.undelivered.set({ network, urgency }, count)
    meters.undeliveredAge.set({ network, urgency }, Math.max(0, now - since) / 1000)
  }
}
