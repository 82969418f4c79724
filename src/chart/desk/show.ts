// What others show a therapist: at once, or held until their next duty; and what becomes of an alert that does not arrive.
import { isAway, isOnCover } from '#src/schedule/cover.ts'
import { clinicId } from '../clinic.ts'
import { cardOf, type Desk } from '../desk.ts'
import { coverOf } from '../desk-card.ts'
import type { Draft } from '../draft.ts'
import type { EventOf, Shown, Unseen } from '../event.ts'

/** Our choice: more alerts than a desk is sent while one of them is still on its way. */
const rememberedAlerts = 50

/** An alert that locks nothing may wait; what locks, and what answers the therapist, never does. */
export function show(draft: Draft<Desk>, shown: Shown): void {
  if (shown.mayWait !== true || isOnCover(coverOf(cardOf(draft.document)), draft.at)) return present(draft, shown)
  if (shown.isPassedOn !== true && passToStandIn(draft, shown)) return
  draft.change({ held: [...draft.document.held, shown] })
}

/** Whoever is away with somebody standing in is not written to meanwhile. True where somebody does. */
export function passToStandIn(draft: Draft<Desk>, shown: Shown): boolean {
  const { away, name } = draft.document
  if (away === null || away.standIn === null || !isAway({ away }, draft.at)) return false
  const lead = draft.words(draft.document.language).say('duty.for-you-instead', { name })
  draft.tell(away.standIn, { kind: 'show', shown: { ...shown, text: `${lead}\n${shown.text}`, isPassedOn: true } })
  return true
}

export function present(draft: Draft<Desk>, { text, buttons, urgency, alert, isPassedOn }: Shown): void {
  const { contact, sentAlerts } = draft.document
  if (!contact) return
  // Thirty notices of one client must not stand before another's alert.
  const effect = draft.send(contact, { text, buttons }, urgency, urgency !== 'alert')
  if (alert) draft.record('alert-shown', 'nuchal', { ...alert, effect })
  if (urgency !== 'alert') return
  draft.change({ sentAlerts: [...sentAlerts, { effect, alert, isPassedOn: isPassedOn === true }].slice(-rememberedAlerts) })
}

/** The client's chart, which knows who else has it, sends the alert on. One without a chart of its own goes to everybody once. */
export function noteUnseen(draft: Draft<Desk>, { effect }: EventOf<'undeliverable'> | EventOf<'delayed'>, reason: Unseen): void {
  if (reason === 'unreachable') draft.change({ isReachable: false })
  if (effect.urgency !== 'alert') return
  const sent = draft.document.sentAlerts.find((one) => one.effect === effect.id)
  const { id, name, language } = draft.document
  if (sent?.alert) return draft.tell(sent.alert.chart, { kind: 'unseen', alert: sent.alert.id, desk: id, reason })
  if (sent?.isPassedOn === true) return
  const lead = draft.words(language).say('alert.passed-on', { name, isLate: reason === 'delayed' ? 'yes' : 'no' })
  const { text, buttons } = effect.message
  const shown: Shown = { text: `${lead}\n${text}`, buttons, urgency: 'alert', alert: null, isPassedOn: true }
  draft.tell(clinicId, { kind: 'show-all', except: [id], shown })
}
