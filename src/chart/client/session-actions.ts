// The actions of the session's flow, up to its end.
import type { Answer } from '#src/conversation/question.ts'
import type { Control } from '#src/domain/set-report.ts'
import { ladderOf } from '#src/domain/direction.ts'
import { brandAs, type SessionId } from '#src/domain/identifier.ts'
import { beforeSession } from '#src/rules/before-session.ts'
import { addDays, instantOf } from '#src/schedule/wall-time.ts'
import { laterAt } from '#src/schedule/later-at.ts'
import type { Chart, OpenSession, SetUnderWay } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withoutTimer, withTimer } from '../timer.ts'
import { push, type ActionHandler } from '../turn.ts'
import { closeSession } from './close-session.ts'
import { countRestOrdered, recordEffort } from './count-training.ts'
import { planOf, protocolOf, todayOf } from './plan-facts.ts'
import { prescribe, recordPrescription } from './prescribe.ts'
import { raiseRoutine } from './raise-routine.ts'
import { raiseSeverePain } from './raise-severe-pain.ts'
import { say } from './say.ts'
import { isFullScreenDue } from './screen.ts'
import { addSet, changeSession, consequence, nextSet, notStarted, reportOf, sessionOf } from './session-state.ts'
import { settlePending, tellConcernsOfNow } from './settle-pending.ts'
import { noteRestPain } from './watch.ts'

type Handler = ActionHandler<Chart>

export const sessionActions: Readonly<Record<string, Handler>> = {
  'begin-session': beginSession,
  'remind-later': remindLater,
  'note-not-today': noteNotToday,
  'note-unanswered': (draft) => draft.record('reminder-unanswered', 'nuchal', {}),
  'record-screen': recordScreen,
  'ask-about-group': (draft, _conversation, group) => askAboutGroup(draft, String(group)),
  'ask-symptom': (draft) => push(draft, 'symptom', 'ask'),
  'record-morning': recordMorning,
  'record-worst-since': recordWorstSince,
  'record-pain-now': recordPainNow,
  'raise-severe-pain': (draft) => raiseSeverePain(draft, sessionOf(draft.document).painNow ?? 0),
  'say-nothing-due': sayNothingDue,
  'record-warm-up': (draft) => changeSession(draft, { hasWarmedUp: true }),
  'record-set-done': (draft, _conversation, how) => changeSession(draft, { underWay: { ...notStarted, isFinished: how !== 'unfinished' } }),
  'leave-set-out': (draft) => addSet(draft, null),
  'record-pain': (draft, _conversation, pain) => changeUnderWay(draft, { pain: Number(pain) }, 'pain'),
  'record-control': (draft, _conversation, control) => changeUnderWay(draft, { control: control as Control }, 'control'),
  'record-reserve': (draft, _conversation, reserve) => changeUnderWay(draft, { reserve: Number(reserve) }, 'reserve'),
  'complete-set': completeSet,
  'end-early': (draft) => {
    if (draft.document.session) changeSession(draft, { endedEarly: true, isOver: true })
  },
  'close-session': (draft) => closeSession(draft),
  'record-effort': recordEffort,
}

function changeUnderWay(draft: Draft<Chart>, patch: Partial<SetUnderWay>, lastAnswer: OpenSession['lastAnswer']): void {
  const underWay = sessionOf(draft.document).underWay ?? notStarted
  changeSession(draft, { underWay: { ...underWay, ...patch }, lastAnswer })
}

function beginSession(draft: Draft<Chart>): void {
  const on = todayOf(draft)
  const { zone } = planOf(draft.document)
  const session: OpenSession = {
    id: brandAs<SessionId>(`${on} ${draft.eventId}`),
    on,
    startedAt: draft.at,
    painNow: null,
    painNowCorrected: null,
    before: null,
    hasAskedWorstSince: false,
    hasAskedMorning: false,
    hasWarmedUp: false,
    prescribed: [],
    sets: [],
    underWay: null,
    stopped: [],
    notTheirTurn: [],
    endedEarly: false,
    isOver: false,
    hasRedFlag: false,
    lastAnswer: null,
    asked: null,
  }
  const midnight = instantOf(addDays(on, 1), '00:00', zone)
  draft.change({
    session,
    timers: withTimer(draft.document.timers, { kind: 'session-end', about: '', dueAt: midnight }),
  })
  draft.record('session-begun', 'client', { session: session.id })
}

function noteNotToday(draft: Draft<Chart>, _conversation: unknown, why: Answer): void {
  draft.record('not-today', 'client', { why })
  // A session in which something was prescribed is closed with a word about the next one.
  if (draft.document.session && draft.document.session.prescribed.length > 0) return
  const { text, time } = say(draft, 'client')
  const next = draft.document.timers.find((timer) => timer.kind === 'reminder' && timer.about === '')
  draft.say(next ? text('session.not-today-noted', { time: time(next.dueAt) }) : text('session.not-today-noted-only'))
}

function remindLater(draft: Draft<Chart>): void {
  const plan = planOf(draft.document)
  const dueAt = laterAt(draft.at, plan.zone, plan.schedule.quiet)
  const { text, time } = say(draft, 'client')
  draft.record('later', 'client', {})
  if (dueAt === null) return draft.say(text('session.later.no-room'))
  draft.change({ timers: withTimer(draft.document.timers, { kind: 'reminder', about: 'later', dueAt }) })
  draft.say(text('session.later.at', { time: time(dueAt) }))
}

function recordScreen(draft: Draft<Chart>): void {
  const isFull = isFullScreenDue(draft)
  draft.record('screen', 'client', { answer: 'none', isFull })
  if (isFull) draft.change({ lastFullScreenAt: draft.at })
}

/** A change of health is told and does not lock; every other group leads to one sharper question. */
function askAboutGroup(draft: Draft<Chart>, group: string): void {
  if (group !== 'health-change') return push(draft, 'symptom', 'which', { group })
  draft.change({ lastFullScreenAt: draft.at })
  raiseRoutine(draft, { title: say(draft, 'therapist').text('alert.health-change'), ladder: null, request: null })
  draft.say(say(draft, 'client').text('session.health-change'))
}

export function recordMorning(draft: Draft<Chart>, _conversation: unknown, pain: Answer): void {
  const { pending, session } = draft.document
  if (pending && pain !== null) draft.change({ pending: { ...pending, morning: Number(pain) } })
  if (session) changeSession(draft, { hasAskedMorning: true, lastAnswer: 'morning' })
  draft.record('morning', 'client', { pain })
  tellConcernsOfNow(draft)
  if (pain !== null) noteRestPain(draft, Number(pain))
}

function recordWorstSince(draft: Draft<Chart>, _conversation: unknown, pain: Answer): void {
  const { pending } = draft.document
  if (pending && pain !== null) draft.change({ pending: { ...pending, worstSince: Number(pain) } })
  changeSession(draft, { hasAskedWorstSince: true, lastAnswer: 'worst-since' })
  draft.record('worst-since', 'client', { pain })
}

/** The last decision becomes final, and the prescription of this session follows from it. */
function recordPainNow(draft: Draft<Chart>, _conversation: unknown, answer: Answer): void {
  const plan = planOf(draft.document)
  const painNow = Number(answer)
  const before = beforeSession(painNow, plan.usualPain, protocolOf(plan, draft.content))
  draft.record('pain-now', 'client', { pain: painNow })
  settlePending(draft)
  // Also where nothing is trained: what stands here is what gets its decision.
  const { prescribed, notTheirTurn } = prescribe(draft, before !== 'train')
  changeSession(draft, { painNow, before, prescribed, notTheirTurn, lastAnswer: 'pain-now', isOver: before === 'no session' })
  if (before !== 'urgent') {
    recordPrescription(draft, prescribed)
    noteRestPain(draft, painNow)
  }
  const { text, reason } = say(draft, 'client')
  if (before === 'train eased') draft.say(text('session.eased-start'))
  if (before === 'no session') draft.say(text('session.no-session', { pain: painNow }))
  if (before === 'urgent') return
  for (const lowered of prescribed.flatMap((one) => one.reasons)) draft.say(reason(lowered))
}

function sayNothingDue(draft: Draft<Chart>): void {
  draft.say(say(draft, 'client').text('session.nothing-due'))
  draft.record('session-closed', 'nuchal', { session: sessionOf(draft.document).id, isEmpty: true })
  countRestOrdered(draft)
  draft.change({ session: null, timers: withoutTimer(draft.document.timers, 'session-end') })
}

function completeSet(draft: Draft<Chart>): void {
  const { underWay } = sessionOf(draft.document)
  if (underWay?.pain == null) throw new RangeError('a set without its pain')
  addSet(draft, reportOf(underWay))
  applyConsequence(draft)
}

/** Stops the direction or the session as the rules say, and tells the client what changes. */
export function applyConsequence(draft: Draft<Chart>): void {
  const session = sessionOf(draft.document)
  const last = session.sets.at(-1)
  if (!last) return
  const ladder = ladderOf(last.direction)
  const after = consequence(draft, ladder)
  const isNewlyStopped = after.isDirectionStopped && !session.stopped.includes(ladder)
  changeSession(draft, {
    stopped: isNewlyStopped ? [...session.stopped, ladder] : session.stopped,
    isOver: session.isOver || after.endsSession,
  })
  const { text } = say(draft, 'client')
  if (after.endsSession) draft.say(text('session.ends-now'))
  else if (isNewlyStopped) draft.say(text('session.direction-stopped'))
  else if (last.report?.control === 'lost' && nextSet(draft) !== null) draft.say(text('session.put-it-down'))
}
