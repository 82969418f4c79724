// What a therapist reads of an alert, and the presses that go straight to the client's chart.
import type { Button } from '#src/domain/message.ts'
import type { DocumentId } from '#src/domain/identifier.ts'
import { describeInstant } from '#src/schedule/describe-instant.ts'
import type { Alert } from '../alert.ts'
import type { Chart } from '../chart.ts'
import { clinicId } from '../clinic.ts'
import type { DeskCard } from '../desk-card.ts'
import type { Draft } from '../draft.ts'
import type { ActKind, Shown } from '../event.ts'
import { planOf } from './plan-facts.ts'
import { say } from './say.ts'

/** A press on this client's matter, with the revision of the chart that its reader saw. */
export function actButton(draft: Draft<Chart>, act: ActKind, about: string, label: string): Button {
  return { label, data: `m:${draft.document.id}:${draft.document.revision}:${act}:${about}` }
}

export function tellTherapist(draft: Draft<Chart>, shown: Shown): void {
  if (draft.document.therapist) tellDesk(draft, draft.document.therapist.desk, shown)
}

export function tellDesk(draft: Draft<Chart>, desk: DocumentId, shown: Shown): void {
  draft.tell(desk, { kind: 'show', shown })
}

export function tellEveryDesk(draft: Draft<Chart>, shown: Shown, except: readonly DocumentId[] = []): void {
  draft.tell(clinicId, { kind: 'show-all', except, shown })
}

export interface Readers {
  /** Whose clock is shown; where others read it too, it is not called theirs. */
  readonly reader: DeskCard
  /** Names of whoever else is sent it. */
  readonly others: readonly string[]
  readonly isForAll: boolean
}

/** Who, what, when in both local times, what was going on, what the client was told and answered, what to press. */
export function shownAlert(draft: Draft<Chart>, alert: Alert, { reader, others, isForAll }: Readers): Shown {
  const chart = draft.document
  const plan = planOf(chart)
  const { text, time, words } = say(draft, 'therapist')
  const line = (key: string, value: string | null): string[] => (value === null ? [] : [text(`alert.${key}`, { value })])
  const when = text(isForAll ? 'alert.when-all' : 'alert.when', {
    name: reader.name,
    client: time(alert.raisedAt),
    clientZone: plan.zone,
    therapist: describeInstant(alert.raisedAt, reader.zone, words.language),
    therapistZone: reader.zone,
  })
  const lines = [
    text(`alert.title.${alert.level}`, { client: plan.client.name, sending: alert.sendings }),
    ...(alert.isConfirmed ? [] : [text('alert.unconfirmed')]),
    alert.title,
    ...line('words', alert.words),
    ...line('matched', alert.matched ?? null),
    when,
    ...line('during', alert.during),
    ...line('told', alert.told),
    ...line('client-said', alert.clientSaid),
    ...line('history', historyLine(draft)),
    ...(alert.level === 'routine' ? [] : [text('alert.numbers', { emergency: plan.emergencyNumber, outOfHours: plan.outOfHoursNumber })]),
    ...line('sent-to', isForAll ? text('alert.everybody') : others.length === 0 ? null : others.join(', ')),
    ...(alert.acknowledged ? [text('alert.acknowledged-by', { name: alert.acknowledged.by })] : []),
  ]
  const shown = { text: lines.join('\n'), buttons: buttonsFor(draft, alert), alert: { chart: chart.id, id: alert.id } }
  return alert.level === 'routine' ? { ...shown, urgency: 'reply', mayWait: true } : { ...shown, urgency: 'alert' }
}

function buttonsFor(draft: Draft<Chart>, alert: Alert): readonly (readonly Button[])[] {
  const { text } = say(draft, 'therapist')
  const acknowledge = actButton(draft, 'acknowledge', alert.id, text('alert.press.acknowledge'))
  if (alert.level === 'routine') return [[acknowledge]]
  return [
    [acknowledge],
    [actButton(draft, 'contacted', alert.id, text('alert.press.contacted'))],
    [actButton(draft, 'clear', alert.id, text('alert.press.clear'))],
  ]
}

/** The last sessions in a line each, newest first; null before the first. */
export function historyLine(draft: Draft<Chart>): string | null {
  const { text, words } = say(draft, 'therapist')
  const lines = draft.document.history.toReversed().slice(0, 3).map((session) =>
    text('alert.session-line', {
      on: session.on,
      done: session.setsDone,
      asked: session.setsAsked,
      pain: session.worstPain ?? '–',
      control: session.worstControl === null ? '–' : words.say(`common.control-short.${session.worstControl}`),
    }),
  )
  return lines.length === 0 ? null : lines.join('; ')
}

