// A therapist's press on this client's matter. It is taken as often as it comes and counts once.
import { brandAs, type AlertId } from '#src/domain/identifier.ts'
import { locate, lowestOfRung, placeAt, restartFrom } from '#src/rules/moves.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { Button } from '#src/domain/message.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { ActKind, Actor, EventOf, ToldOf } from '../event.ts'
import { withoutTimer } from '../timer.ts'
import { bringOn, closePrompt, flushNotes } from '../turn.ts'
import { clientParty } from './client-party.ts'
import { actButton, tellDesk } from './alert-message.ts'
import { askForScores } from './disability-record.ts'
import { acknowledge, changeAlert, findAlert, gravestAlert, tellOthers } from './escalate.ts'
import { describeLoads } from './describe-loads.ts'
import { explainForTherapist } from './explain-whole.ts'
import { lookAt } from './look.ts'
import { offerMeasuring } from './measure.ts'
import { askForAnswer } from './messages.ts'
import { alertNumber } from './new-alert.ts'
import { offerPlaces } from './place-by-hand.ts'
import { scheduleAbsence } from './absence-timer.ts'
import { chainOf, planOf, protocolOf, stateOf } from './plan-facts.ts'
import { laddersOf } from '#src/rules/plan-ladders.ts'
import { hourMs, minuteMs } from '#src/schedule/wall-time.ts'
import { measureButton } from './retest.ts'
import { say } from './say.ts'
import { recordReview } from './supervision.ts'
import { watchOf } from './watch.ts'

type Act = (draft: Draft<Chart>, by: Actor, about: string) => string

/** Each answers with what the therapist reads. */
const acts: Record<ActKind, Act> = {
  acknowledge: actAcknowledge,
  contacted: actContacted,
  clear: actClear,
  permit: actPermit,
  decline: actDecline,
  resume: actResume,
  review: (draft, by, about) => {
    recordReview(draft, by.name)
    draft.change({ alerts: draft.document.alerts.filter((alert) => alert.id !== about) })
    return text(draft, 'acts.reviewed', { days: protocolOf(planOf(draft.document), draft.content).supervision.noProgressAfterDays })
  },
  look: (draft) => lookAt(draft),
  measure: (draft, by) => offerMeasuring(draft, by),
  place: (draft, by) => offerPlaces(draft, by),
  score: (draft, by) => askForScores(draft, by),
  explain: (draft) => explainForTherapist(draft),
  loads: (draft) => describeLoads(draft),
  answer: askForAnswer,
}

export function act(draft: Draft<Chart>, event: EventOf<'act'>): void {
  if (draft.document.standing === 'blank') return
  const answer = acts[event.act](draft, event.by, event.about)
  draft.record('act', event.by.name, { act: event.act, about: event.about, seenRevision: event.seenRevision })
  if (answer !== '') tellDesk(draft, event.by.desk, { text: answer, buttons: event.act === 'look' ? waysOn(draft) : [], urgency: 'reply', alert: null })
}

/** What a therapist may do for the client they look at. */
function waysOn(draft: Draft<Chart>): readonly (readonly Button[])[] {
  const button = (act: 'explain' | 'loads' | 'place' | 'score'): readonly Button[] => [actButton(draft, act, 'now', say(draft, 'therapist').text(`acts.press.${act}`))]
  return [button('explain'), button('loads'), [measureButton(draft)], button('place'), button('score')]
}

function text(draft: Draft<Chart>, key: string, values: Readonly<Record<string, string | number>> = {}): string {
  return say(draft, 'therapist').text(key, { client: planOf(draft.document).client.name, ...values })
}

function actAcknowledge(draft: Draft<Chart>, by: Actor, id: string): string {
  const alert = findAlert(draft.document, id)
  if (!alert) return text(draft, 'acts.alert-gone')
  if (alert.acknowledged) return text(draft, 'acts.already-acknowledged', { name: alert.acknowledged.by })
  acknowledge(draft, alert, by)
  tellOthers(draft, alert, by, 'acknowledged')
  if (alert.level !== 'routine') return text(draft, 'acts.acknowledged', { hours: draft.content.triage.escalation.contactWithin[alert.level] * minuteMs / hourMs })
  draft.change({ alerts: draft.document.alerts.filter((one) => one.id !== id) })
  return text(draft, 'acts.noted')
}

function actContacted(draft: Draft<Chart>, by: Actor, id: string): string {
  const alert = findAlert(draft.document, id)
  if (!alert) return text(draft, 'acts.alert-gone')
  if (!alert.acknowledged) acknowledge(draft, alert, by)
  if (!alert.contacted) tellOthers(draft, alert, by, 'contacted')
  changeAlert(draft, brandAs<AlertId>(id), { contacted: { by: by.name, at: draft.at } })
  draft.record('contact', by.name, { alert: id })
  draft.change({ timers: withoutTimer(withoutTimer(draft.document.timers, 'contact-due', id), 'resend-alert', id) })
  return text(draft, 'acts.contact-recorded')
}

/** The questions of clearing are asked at the therapist's desk, and come back as one answer. */
function actClear(draft: Draft<Chart>, by: Actor): string {
  const { lock } = draft.document
  if (!lock) return text(draft, 'acts.not-locked')
  const { id, alertsRaised } = draft.document
  draft.tell(by.desk, { kind: 'clear', chart: id, client: planOf(draft.document).client.name, dose: restartWords(draft, lock.level), seenAlerts: alertsRaised })
  return ''
}

function restartWords(draft: Draft<Chart>, level: 'urgent' | 'emergency'): string {
  const { dose } = say(draft, 'therapist')
  return laddersOf(planOf(draft.document))
    .map((ladder) => {
      const place = placeAt(chainOf(planOf(draft.document), ladder, draft.content), restartIndex(draft, ladder, level))
      return dose(place.exercise, place.dose, null)
    })
    .join('; ')
}

function restartIndex(draft: Draft<Chart>, ladder: LadderId, level: 'urgent' | 'emergency'): number {
  const plan = planOf(draft.document)
  const chain = chainOf(plan, ladder, draft.content)
  return restartFrom(chain, locate(chain, stateOf(draft.document, ladder, draft.content).place), level, protocolOf(plan, draft.content))
}

/** A person clears a lock, with a reason; training starts again lower, and without progress for a while. */
export function clearLock(draft: Draft<Chart>, { by, assessed, reason, dose, seenAlerts }: ToldOf<'cleared'>): void {
  const { lock } = draft.document
  const answer = (key: string): void => tellDesk(draft, by.desk, { text: text(draft, key), buttons: [], urgency: 'reply', alert: null })
  if (!lock) return answer('acts.not-locked')
  if (seenAlerts !== undefined && hasLockedSince(draft.document, seenAlerts)) {
    draft.record('clearing-outdated', by.name, { assessed, reason, dose })
    return answer('acts.clearing-outdated')
  }
  const plan = planOf(draft.document)
  const states = { ...draft.document.states }
  for (const ladder of laddersOf(plan)) {
    const chain = chainOf(plan, ladder, draft.content)
    const restart = restartIndex(draft, ladder, lock.level)
    const index = dose === 'lowest' ? lowestOfRung(chain, restart) : restart
    const state = stateOf(draft.document, ladder, draft.content)
    const { sessionsWithoutProgress } = protocolOf(plan, draft.content).lock
    states[ladder] = { ...state, place: placeAt(chain, index), sessionsWithoutProgress }
  }
  draft.record('cleared', by.name, { assessed, reason, dose, level: lock.level })
  const gravest = gravestAlert(draft.document)
  if (gravest) tellOthers(draft, gravest, by, 'cleared')
  closePrompt(draft, clientParty, null)
  draft.converse({ conversations: draft.document.conversations.filter((one) => one.flow === 'consent') })
  draft.change({
    states,
    lock: null,
    alerts: draft.document.alerts.filter((alert) => alert.level === 'routine'),
    // After a lock the screen is asked in full.
    lastFullScreenAt: null,
    // Whoever clears has judged the signs told so far; the next one is the first again.
    watch: { ...watchOf(draft.document), illness: [] },
    timers: ['resend-alert', 'contact-due', 'ask-called'].reduce(
      (timers, kind) => timers.filter((timer) => timer.kind !== kind),
      draft.document.timers,
    ),
  })
  if (draft.document.standing === 'active') {
    scheduleAbsence(draft)
    draft.say(say(draft, 'client').text('flag.cleared'))
  }
  bringOn(draft, clientParty)
  flushNotes(draft, clientParty)
  tellDesk(draft, by.desk, { text: text(draft, 'acts.cleared', { sessions: protocolOf(plan, draft.content).lock.sessionsWithoutProgress }), buttons: [], urgency: 'reply', alert: null })
}

/** A sign that came after somebody began to clear has been judged by nobody. */
function hasLockedSince({ alerts }: Chart, seenAlerts: number): boolean {
  return alerts.some(({ id, level }) => level !== 'routine' && alertNumber(id) > seenAlerts)
}

/** Shown in person with the set-up checked and, where it is needed, approved. It permits a move and makes none. */
function actPermit(draft: Draft<Chart>, by: Actor, id: string): string {
  const request = draft.document.requests.find((open) => open.id === id)
  if (!request) return text(draft, 'acts.request-gone')
  const { ladder, rung, exercise } = request
  const shown = draft.document.shown.includes(exercise) ? draft.document.shown : [...draft.document.shown, exercise]
  const others = draft.document.approvals.filter((approval) => approval.ladder !== ladder || approval.rung !== rung)
  draft.change({
    shown,
    approvals: request.needsApproval ? [...others, { ladder, rung, at: draft.at }] : others,
    requests: draft.document.requests.filter((open) => open !== request),
  })
  draft.record('permitted', by.name, { ladder, rung, exercise })
  return text(draft, 'acts.permitted', { rung })
}

function actDecline(draft: Draft<Chart>, by: Actor, id: string): string {
  const request = draft.document.requests.find((open) => open.id === id)
  if (!request) return text(draft, 'acts.request-gone')
  draft.change({ requests: draft.document.requests.map((open) => (open === request ? { ...open, isDeclined: true } : open)) })
  draft.record('declined', by.name, { request: id })
  return text(draft, 'acts.declined')
}

function actResume(draft: Draft<Chart>, by: Actor, id: string): string {
  const request = draft.document.requests.find((open) => open.id === id)
  const state = request && draft.document.states[request.ladder]
  if (!request || !state) return text(draft, 'acts.request-gone')
  const { pending } = draft.document
  const released = pending?.ladders.map((one) => (one.ladder === request.ladder ? { ...one, isReleased: true } : one))
  draft.change({
    pending: pending && released ? { ...pending, ladders: released } : pending,
    states: { ...draft.document.states, [request.ladder]: { ...state, isHeld: false, runs: { ...state.runs, lowestDose: 0 } } },
    requests: draft.document.requests.filter((open) => open !== request),
  })
  draft.record('resumed', by.name, { ladder: request.ladder })
  return text(draft, 'acts.resumed')
}
