// Moves the demo clinic on, so that weeks can be lived through in minutes: everything due on the way fires at its own time.
import type { Chart } from '#src/chart/chart.ts'
import type { TimerKind } from '#src/chart/timer.ts'
import type { App } from '#src/app.ts'
import type { ClockControl } from '#src/channels/browser/clock-control.ts'
import type { Instant } from '#src/domain/identifier.ts'
import type { Store } from '#src/ports/store.ts'
import { describeInstant } from '#src/schedule/describe-instant.ts'
import type { DemoClock } from './demo-clock.ts'

const minuteMs = 60_000
/** More wake-ups than this on the way to one instant would be a timer that never goes. */
const mostStops = 500

export interface DemoTime {
  readonly app: App
  readonly store: Store
  readonly clock: DemoClock
}

const fixedSteps: Readonly<Record<string, number>> = { 'minutes-5': 5 * minuteMs, 'hours-2': 120 * minuteMs, 'week-1': 7 * 24 * 60 * minuteMs }

export function createDemoClockControl({ app, store, clock }: DemoTime): ClockControl {
  const charts = async (): Promise<readonly Chart[]> => {
    const heads = await store.heads('chart')
    const documents = await Promise.all(heads.map((head) => store.read<Chart>(head.id)))
    return documents.filter((chart) => chart !== null)
  }
  const nextOf = async (kind: TimerKind): Promise<Instant | null> => {
    const due = (await charts()).flatMap((chart) => chart.timers.filter((timer) => timer.kind === kind).map((timer) => timer.dueAt))
    return due.length === 0 ? null : Math.min(...due)
  }
  const zone = async (): Promise<string> => (await charts())[0]?.plan?.zone ?? 'UTC'
  return {
    async now() {
      const at = clock.now()
      const place = await zone()
      return { iso: new Date(at).toISOString(), zone: place, text: describeInstant(at, place, 'en') }
    },
    async choices() {
      const [morning, session] = await Promise.all([nextOf('check-in'), nextOf('reminder')])
      return [
        ...(morning === null ? [] : [{ id: 'check-in', label: 'Next morning' }]),
        ...(session === null ? [] : [{ id: 'reminder', label: 'Next session' }]),
        { id: 'minutes-5', label: '5 minutes on' },
        { id: 'hours-2', label: '2 hours on' },
        { id: 'week-1', label: 'A week on' },
      ]
    },
    async move(id) {
      const next = id === 'check-in' || id === 'reminder' ? await nextOf(id) : null
      await advance({ app, store, clock }, next ?? clock.now() + (fixedSteps[id] ?? 0))
    },
  }
}

async function advance({ app, store, clock }: DemoTime, to: Instant): Promise<void> {
  for (let stop = 0; stop < mostStops; stop += 1) {
    const due = await store.nextDueAt()
    if (due === null || due > to) break
    clock.moveTo(due)
    await app.delivery.runDue()
    await app.delivery.idle()
  }
  clock.moveTo(to)
}
