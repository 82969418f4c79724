// A chart of version 0.1.0: what was kept by direction is kept by ladder, and what has come since begins empty.
import { bySides, ladderIn, ladderNames, ladderOfOld, type Fields, type Old } from './ladders-of-directions.ts'

const dayMs = 24 * 3_600_000

/** As new as they can be: nothing was measured, named or scored before there was a place for it. */
const noOutcomes = { weeks: [], activities: [], rounds: [], activitiesAskedAt: null, changes: [], changeAskedAt: null, disability: [] }
/** What was trained before stands in the record; the sums of weeks begin now, or they would be of half a week. */
const noTraining = { weeks: [], prescribedOn: null, doneOn: null, unrated: null }

export function chartToFormat2(document: Fields): Fields {
  // `weekly` goes over into `outcomes`.
  const { weekly, ...chart } = document
  return {
    amendment: null,
    pause: null,
    colleagues: [],
    isKnownToDesk: false,
    training: noTraining,
    ...chart,
    outcomes: chart.outcomes ?? { ...noOutcomes, weeks: weeksOf(weekly as OldWeek | null | undefined) },
    states: statesByLadder(chart.states as Readonly<Record<string, Old>>),
    approvals: listOf(chart.approvals).map(ladderIn),
    requests: listOf(chart.requests).map(ladderIn),
    alerts: listOf(chart.alerts).map((alert) => ({ ...alertFields(alert, chart), ...alert })),
    lastDecisions: listOf(chart.lastDecisions).map(ladderIn),
    session: sessionByLadder(chart.session as Old | null),
    pending: pendingByLadder(chart.pending as Old | null),
    timers: withRetest(chart),
  }
}

interface OldWeek {
  readonly average: number
  readonly at: number
}

function listOf(value: unknown): readonly Old[] {
  return value as readonly Old[]
}

/**
 * The one average of a week that version 0.1.0 asked for counts as the pain "now" of a week that was left early: it goes on
 * holding progress back, and is never compared as an outcome with weeks that were asked about otherwise.
 */
function weeksOf(weekly: OldWeek | null | undefined): readonly Fields[] {
  return weekly ? [{ at: weekly.at, now: weekly.average, best: null, worst: null }] : []
}

function statesByLadder(states: Readonly<Record<string, Old>>): Fields {
  const found = new Map<string, Old>()
  for (const [name, state] of Object.entries(states)) {
    const ladder = ladderOfOld(name)
    const known = found.get(ladder)
    found.set(ladder, known === undefined ? state : lowerOf(known, state))
  }
  return Object.fromEntries(found)
}

/** Of two sides that had a state each, the lower one is what both may do. */
function lowerOf(one: Old, other: Old): Old {
  const rungOf = (state: Old): number => (state.place as { readonly rung: number }).rung
  return rungOf(other) < rungOf(one) ? other : one
}

/**
 * Whom version 0.1.0 had sent an alert to follows from how often it was sent: twice to the therapist, then to the second contact
 * as well, from the fourth time on to everybody. It did not know whether one arrived.
 */
function alertFields({ level, sendings }: Old, { therapist, second }: Fields): Fields {
  const deskOf = (card: unknown): readonly unknown[] => (card ? [(card as { readonly desk: unknown }).desk] : [])
  const isAgain = level !== 'routine' && Number(sendings) > 2
  const isForAll = level !== 'routine' && Number(sendings) > 3
  const sentTo = [...deskOf(therapist), ...(isAgain ? deskOf(second) : []), ...(isForAll ? ['clinic'] : [])]
  return { sentTo, unreached: [], hasReachedNobody: false }
}

function sessionByLadder(session: Old | null): Fields | null {
  if (session === null) return null
  return {
    // Every ladder of a plan was asked for every day.
    notTheirTurn: [],
    ...session,
    prescribed: listOf(session.prescribed).map((one) => ({ ladder: ladderOfOld(one.direction), ...one })),
    stopped: ladderNames(session.stopped),
  }
}

function pendingByLadder(pending: Old | null): Fields | null {
  if (pending === null || pending.ladders !== undefined) return pending
  const { directions, ...rest } = pending
  const toldRules = (pending.toldRules as readonly string[]).map((told) => {
    const [direction, ...rule] = told.split(' ')
    return [ladderOfOld(direction), ...rule].join(' ')
  })
  return { ...rest, toldRules, ladders: bySides(listOf(directions)) }
}

/**
 * A plan with a measured maximum is due for a retest, which version 0.1.0 did not ask for. It is asked for with the next
 * review, since a step has no clock to know today by; a measurement without a date counts from the day of the consent.
 */
function withRetest(chart: Fields): readonly Fields[] {
  const timers = listOf(chart.timers)
  const review = timers.find((timer) => timer.kind === 'supervision')
  const plan = chart.plan as { readonly measurements: readonly { readonly on: string | null }[] } | null
  const isAsked = timers.some((timer) => timer.kind === 'retest')
  if (review === undefined || plan === null || plan.measurements.length === 0 || isAsked) return timers
  const consentedOn = new Date(Number(chart.consentedAt)).toISOString().slice(0, 10)
  const about = plan.measurements.flatMap(({ on }) => on ?? []).toSorted().at(-1) ?? consentedOn
  const dueAt = Math.max(Number(review.dueAt), Date.parse(about) + 28 * dayMs)
  return [...timers, { kind: 'retest', about, dueAt }]
}
