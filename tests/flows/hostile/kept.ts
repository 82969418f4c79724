// What a chart or a desk may never lose by anything that a client or the world does. Each gives what is wrong, in a few words.
import { isDeepStrictEqual } from 'node:util'
import type { Chart, OpenSession } from '#src/chart/chart.ts'
import type { Desk } from '#src/chart/desk.ts'
import type { Conversation } from '#src/conversation/flow.ts'
import type { Happening } from '#src/commands/rehearse/virtual-clinic.ts'
import type { Speaking } from '../walk.ts'

type Law<D> = (before: D, after: D, happening: Happening | null) => boolean

/** `happening` is null where time passes. */
export function lostBy(before: Speaking, after: Speaking, happening: Happening | null): readonly string[] {
  if (before === after) return []
  if (before.kind === 'chart' && after.kind === 'chart') return broken(chartLaws, before, after, happening)
  return before.kind === 'desk' && after.kind === 'desk' ? broken(deskLaws, before, after, happening) : ['the kind of document']
}

function broken<D>(laws: Readonly<Record<string, Law<D>>>, before: D, after: D, happening: Happening | null): readonly string[] {
  return Object.entries(laws).flatMap(([name, holds]) => (holds(before, after, happening) ? [] : [name]))
}

const chartLaws: Readonly<Record<string, Law<Chart>>> = {
  'an answer about a set': ({ session }, after) => session === null || setsKnown(after, session) >= setsAnswered(session),
  'the pain before a session': ({ session }, after) => session === null || session.painNow === null || knowsPainBefore(after, session),
  'the morning after': ({ pending }, after) => pending?.morning == null || after.pending?.id !== pending.id || after.pending.morning !== null,
  'the worst since a session': ({ pending }, after) => pending?.worstSince == null || after.pending?.id !== pending.id || after.pending.worstSince !== null,
  'a week’s pain': keepsWeek,
  'an activity that was named': ({ outcomes }, after) => outcomes.activities.every(({ name }) => after.outcomes.activities.some((own) => own.name === name)),
  'a score of an activity': keepsScores,
  'how the neck has changed': ({ outcomes }, after) => (outcomes.changes.at(-1)?.at ?? 0) <= (after.outcomes.changes.at(-1)?.at ?? 0),
  'a disability score': ({ outcomes }, after) => (outcomes.disability.at(-1)?.at ?? 0) <= (after.outcomes.disability.at(-1)?.at ?? 0),
  'the consent': ({ consentedAt }, after) => consentedAt === null || after.consentedAt !== null,
  'the plan': ({ plan }, after) => plan === null || after.plan !== null,
  'a known sign': (before, after, happening) => isTold(happening, 'amended') || isDeepStrictEqual(before.plan?.knownSigns, after.plan?.knownSigns) || before.amendment !== null,
  'the last session': (before, after) => (before.lastSessionAt ?? 0) <= (after.lastSessionAt ?? 0),
  'how many alerts there were': (before, after) => after.alertsRaised >= before.alertsRaised,
  'an alert, without a therapist’s act': (before, after, happening) => isTherapists(happening) || before.alerts.every((alert) => after.alerts.some((own) => own.id === alert.id && own.level === alert.level && own.words === alert.words)),
  // Clearing is the only way out of it, and it never becomes less.
  'a lock, without a therapist’s clearing': (before, after, happening) =>
    before.lock === null || isTold(happening, 'cleared') || (after.lock !== null && (before.lock.level === 'urgent' || after.lock.level === 'emergency')),
}

function isTold(happening: Happening | null, kind: string): boolean {
  return happening?.kind === 'told' && happening.told.kind === kind
}

function isTherapists(happening: Happening | null): boolean {
  return happening?.kind === 'act' || isTold(happening, 'cleared')
}

/** What was answered of a session's sets; the newest may have been corrected. */
function setsAnswered(session: OpenSession): number {
  return session.sets.filter((set) => set.report !== null).length + (session.underWay?.pain == null ? 0 : 1)
}

/** How many set answers a chart still knows of a session; all, once its decision is recorded. */
function setsKnown(chart: Chart, session: OpenSession): number {
  if (chart.session?.id === session.id) return setsAnswered(chart.session)
  const reports = chart.pending?.id === session.id ? chart.pending.ladders.flatMap((one) => one.sets.map((set) => set.report)) : null
  return reports === null ? Infinity : reports.filter((report) => report !== null).length
}

function knowsPainBefore(chart: Chart, { id }: OpenSession): boolean {
  if (chart.session?.id === id) return chart.session.painNow !== null
  return chart.pending?.id !== id || chart.pending.painBefore !== null
}

/** Whoever is asked for the best or the worst anew may have forgotten it after all. */
function keepsWeek({ outcomes, conversations }: Chart, after: Chart): boolean {
  const last = outcomes.weeks.at(-1)
  if (last === undefined) return true
  const now = after.outcomes.weeks.find(({ at }) => at === last.at)
  const asked = conversations.find(({ flow }) => flow === 'weekly')?.state
  const keeps = (name: 'best' | 'worst'): boolean => last[name] === null || now?.[name] != null || asked === name
  return now !== undefined && keeps('best') && keeps('worst')
}

/** The newest can be taken back as a slip, and is asked about anew then. */
function keepsScores({ outcomes }: Chart, after: Chart): boolean {
  const last = outcomes.rounds.at(-1)
  const now = after.outcomes.rounds.find(({ at }) => at === last?.at)
  return last === undefined || (now !== undefined && now.scores.length >= last.scores.length - 1)
}

const deskLaws: Readonly<Record<string, Law<Desk>>> = {
  'its client': (before, after) => before.clients.every(({ chart }) => after.clients.some((own) => own.chart === chart)),
  'its name': ({ name }, after) => name === '' || after.name !== '',
  'a conversation that was not on top': (before, after, happening) => isTold(happening, 'client') || before.conversations.slice(0, -1).every((one) => isBegunAnew(one, happening) || after.conversations.some((own) => isSame(own, one))),
  'what was gathered': (before, after, happening) => before.conversations.every((one) => isBegunAnew(one, happening) || keepsGathered(one, after)),
}

const flowBegunBy: Readonly<Record<string, string>> = { measure: 'measuring', place: 'placing', score: 'disability', answer: 'answering', clear: 'clearing' }

/** Pressed twice, a conversation about a client starts anew. */
function isBegunAnew({ flow, data }: Conversation, happening: Happening | null): boolean {
  if (happening?.kind !== 'told') return false
  const { told } = happening
  return flowBegunBy[told.kind] === flow && 'chart' in told && told.chart === data.chart
}

function isSame(one: Conversation, other: Conversation): boolean {
  return one.flow === other.flow && one.data.chart === other.data.chart
}

/** Names of what moves elsewhere when a ladder, a band, a sign or a direction is done, or is asked about anew. */
const movesOn: ReadonlySet<string> = new Set([
  '(chosen)', 'band', 'more-bands', 'doubted', 'ladder', 'ladder-plans', 'rung', 'max-rung', 'shown', 'measurement', 'measured', 'measurements',
  'known-sign', 'known-signs-done', 'trials', 'direction', 'taken',
])

/** As long as it is open; "start again" begins an enrolment with nothing. */
function keepsGathered(before: Conversation, after: Desk): boolean {
  const now = after.conversations.find((own) => isSame(own, before))
  if (now === undefined || (before.state === 'review' && Object.keys(now.data).length === 0)) return true
  return Object.keys(before.data).every((key) => movesOn.has(key) || key in now.data)
}
