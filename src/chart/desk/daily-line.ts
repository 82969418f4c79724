// Once a day, when a duty begins: what is held, and one message of everything that is still open. It is the net below the
// alerts themselves, since it is worked out from what each chart has told.
import type { Button } from '#src/domain/message.ts'
import { mayTakeIn } from '#src/domain/signature.ts'
import { alertLevels } from '#src/domain/triage.ts'
import { nextBeginningAfter } from '#src/schedule/cover.ts'
import { describeInstant } from '#src/schedule/describe-instant.ts'
import { hourMs } from '#src/schedule/wall-time.ts'
import { describeSignature } from '../describe-signature.ts'
import type { Desk } from '../desk.ts'
import { coverOf } from '../desk-card.ts'
import type { Draft } from '../draft.ts'
import type { OpenMatters } from '../open-matters.ts'
import { passToStandIn, present } from './show.ts'
import type { ToldOf } from '../event.ts'

const dayHours = 24
/** The Bot API takes a hundred buttons at most; whoever has more clients open finds them under "clients". */
const mostButtons = 50

export function hearOpenMatters(draft: Draft<Desk>, { chart, matters }: ToldOf<'open-matters'>): void {
  const others = draft.document.openMatters.filter((one) => one.chart !== chart)
  draft.change({ openMatters: matters === null ? others : [...others, { chart, matters }] })
}

/** Set while anything waits for the next duty; time away does not put it off, since nothing may lie unread for weeks. */
export function armDuty(draft: Draft<Desk>): void {
  const { cover, zone, timers, openMatters, held } = draft.document
  const isNeeded = openMatters.length > 0 || held.length > 0
  if (isNeeded === timers.length > 0) return
  const dueAt = nextBeginningAfter(coverOf({ cover, zone }), draft.at) ?? draft.at + dayHours * hourMs
  draft.change({ timers: isNeeded ? [{ kind: 'duty-begins', about: '', dueAt }] : [] })
}

export function wakeDesk(draft: Draft<Desk>): void {
  const { timers, held } = draft.document
  if (!timers.some(({ dueAt }) => dueAt <= draft.at)) return
  draft.change({ timers: [], held: [] })
  for (const shown of held) present(draft, shown)
  sayWhatIsOpen(draft)
}

function sayWhatIsOpen(draft: Draft<Desk>): void {
  const open = draft.document.openMatters.toSorted((a, b) => urgencyOf(b.matters) - urgencyOf(a.matters) || sinceOf(a.matters) - sinceOf(b.matters))
  if (open.length === 0) return
  const words = draft.words(draft.document.language)
  const { signature } = draft.content
  const unsigned = mayTakeIn(signature) ? [] : [describeSignature(draft.content, words)]
  const text = [words.say('duty.open.title', { count: open.length }), ...open.map(({ matters }) => describeMatters(draft, matters)), ...unsigned].join('\n')
  const buttons = open.slice(0, mostButtons).map(({ chart, matters }): readonly Button[] => [{ label: matters.client, data: `m:${chart}:0:look:now` }])
  const shown = { text, buttons, urgency: 'reply', alert: null } as const
  draft.record('open-told', 'nuchal', { clients: open.length })
  if (!passToStandIn(draft, shown)) present(draft, shown)
}

/** What nobody has acknowledged comes first, the gravest of it before all. */
function urgencyOf({ alerts, lockedSince, isUnreachable }: OpenMatters): number {
  const ofAlerts = alerts.map(({ level, unacknowledged }) => alertLevels.indexOf(level) + 1 + (unacknowledged > 0 ? 0.5 : 0))
  return Math.max(0, ...ofAlerts, lockedSince === null ? 0 : 1, isUnreachable ? 0.5 : 0)
}

function sinceOf({ alerts, lockedSince }: OpenMatters): number {
  return Math.min(...alerts.map(({ since }) => since), lockedSince ?? Number.POSITIVE_INFINITY)
}

function describeMatters(draft: Draft<Desk>, { client, alerts, lockedSince, isUnreachable, approvals }: OpenMatters): string {
  const { document, at } = draft
  const words = draft.words(document.language)
  const when = (since: number): { since: string; days: number; hours: number } => {
    const hours = Math.max(0, Math.floor((at - since) / hourMs))
    return { since: describeInstant(since, document.zone, document.language), days: Math.floor(hours / dayHours), hours }
  }
  const matters = [
    ...alerts.map(({ level, count, unacknowledged, since }) => words.say(`duty.open.${level}`, { count, unacknowledged, ...when(since) })),
    ...(lockedSince === null ? [] : [words.say('duty.open.locked', when(lockedSince))]),
    ...(isUnreachable ? [words.say('duty.open.unreachable')] : []),
    ...(approvals === 0 ? [] : [words.say('duty.open.approvals', { count: approvals })]),
  ]
  return words.say('duty.open.client', { client, matters: matters.join('; ') })
}
