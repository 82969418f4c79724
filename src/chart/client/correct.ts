// "Sorry, I meant 2": to the worse at once; to the better only for the next session, and no set, stop or alert is undone.
import { readMessage, type Awaiting, type Reading } from '#src/conversation/reading/read-message.ts'
import { controls, type Control, type SetReport } from '#src/domain/set-report.ts'
import { beforeSession } from '#src/rules/before-session.ts'
import type { Chart, Correctable, OpenSession, SetRecord } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { bringOn, closePrompt, type OpenQuestion } from '../turn.ts'
import { clientParty } from './client-party.ts'
import { planOf, protocolOf } from './plan-facts.ts'
import { prescribe, recordPrescription } from './prescribe.ts'
import { say } from './say.ts'
import { applyConsequence } from './session-actions.ts'
import { changeSession } from './session-state.ts'

type Value = number | Control

/** Which answer the words put right, and to what. */
interface Meant {
  readonly of: Correctable
  readonly value: Value
}

const awaitingOf: Record<Correctable, Awaiting> = {
  'pain-now': 'pain',
  morning: 'pain',
  'worst-since': 'pain',
  pain: 'pain',
  control: 'control',
  reserve: 'reserve',
}

const aboutSet: readonly Correctable[] = ['pain', 'control', 'reserve']

/** True where the words corrected an earlier answer. */
export function correct(draft: Draft<Chart>, text: string, reading: Reading, open: OpenQuestion | null): boolean {
  const { session } = draft.document
  if (!reading.isCorrection || session === null || session.lastAnswer === null) return false
  const meant = meantAnswer(draft, text, answersMeant(session.lastAnswer, reading, open))
  if (meant === null) return false
  const noted = draft.notes.length
  const isWorse = corrections[meant.of](draft, session, meant.value)
  draft.record('correction', 'client', { ...meant })
  // Thanks come before what follows from it.
  draft.notes.splice(noted, 0, describeCorrection(draft, meant, isWorse))
  closePrompt(draft, clientParty, null)
  bringOn(draft, clientParty)
  return true
}

function describeCorrection(draft: Draft<Chart>, { of, value }: Meant, isWorse: boolean): string {
  const { text } = say(draft, 'client')
  const values = { what: text(`session.corrected.of.${of}`), value: typeof value === 'number' ? value : text(`common.control.${value}`) }
  return text(isWorse ? 'session.corrected.worse' : 'session.corrected.better', values)
}

/** The last answer; or another about the same set that the words name, where they are no answer to what is asked now. */
function answersMeant(last: Correctable, reading: Reading, open: OpenQuestion | null): readonly Correctable[] {
  const isAboutSet = aboutSet.includes(last)
  const isNoAnswer = reading.value === null || open?.conversation.state === 'set'
  return isAboutSet && isNoAnswer ? [last, ...aboutSet.filter((other) => other !== last)] : [last]
}

function meantAnswer(draft: Draft<Chart>, text: string, candidates: readonly Correctable[]): Meant | null {
  const language = draft.language(planOf(draft.document).client.language)
  for (const of of candidates) {
    const { value } = readMessage(text, awaitingOf[of], language.lexicon)
    if (value !== null && typeof value !== 'boolean') return { of, value }
  }
  return null
}

/** Each puts the value in its place and says whether it is worse. */
const corrections: Record<Correctable, (draft: Draft<Chart>, session: OpenSession, value: Value) => boolean> = {
  'pain-now': correctPainNow,
  morning: (draft, _session, value) => correctPending(draft, 'morning', Number(value)),
  'worst-since': (draft, _session, value) => correctPending(draft, 'worstSince', Number(value)),
  pain: (draft, _session, value) => correctSet(draft, { pain: Number(value) }, (old) => Number(value) > old.pain),
  control: (draft, _session, value) => correctSet(draft, { control: value as Control }, (old) => rank(value as Control) > rank(old.control)),
  reserve: (draft, _session, value) => correctSet(draft, { reserve: Number(value) }, (old) => Number(value) < (old.reserve ?? Infinity)),
}

function rank(control: Control | null): number {
  return control === null ? -1 : controls.indexOf(control)
}

function correctPending(draft: Draft<Chart>, answer: 'morning' | 'worstSince', pain: number): boolean {
  const { pending } = draft.document
  if (!pending) return false
  draft.change({ pending: { ...pending, [answer]: pain } })
  return pain > (pending[answer] ?? -1)
}

/** Worse before the first set: the session is judged anew. */
function correctPainNow(draft: Draft<Chart>, session: OpenSession, value: Value): boolean {
  const pain = Number(value)
  if (session.painNow === null || pain <= session.painNow) {
    changeSession(draft, { painNowCorrected: pain })
    return false
  }
  const plan = planOf(draft.document)
  const before = beforeSession(pain, plan.usualPain, protocolOf(plan, draft.content))
  changeSession(draft, { painNow: pain, painNowCorrected: null })
  if (session.sets.length > 0 || session.underWay !== null) return true
  const prescribed = before === 'train eased' ? prescribe(draft, true).prescribed : session.prescribed
  changeSession(draft, { before, prescribed, isOver: before === 'no session' })
  recordPrescription(draft, prescribed)
  moveTop(draft, 'judging')
  return true
}

function correctSet(draft: Draft<Chart>, patch: Partial<SetReport>, isWorse: (old: SetReport) => boolean): boolean {
  const session = draft.document.session
  if (!session) return false
  return session.underWay === null ? correctLastSet(draft, session, patch, isWorse) : correctUnderWay(draft, session, patch, isWorse)
}

/** The set is still being asked about. */
function correctUnderWay(
  draft: Draft<Chart>,
  session: OpenSession,
  patch: Partial<SetReport>,
  isWorse: (old: SetReport) => boolean,
): boolean {
  const { underWay } = session
  if (underWay?.pain == null) return false
  const old: SetReport = { pain: underWay.pain, control: underWay.control, reserve: underWay.reserve, finished: underWay.isFinished }
  if (!isWorse(old)) {
    changeSession(draft, { underWay: { ...underWay, better: { ...underWay.better, ...patch } } })
    return false
  }
  changeSession(draft, { underWay: { ...underWay, ...patch } })
  if (patch.pain !== undefined) moveTop(draft, 'after-pain')
  return true
}

function correctLastSet(
  draft: Draft<Chart>,
  session: OpenSession,
  patch: Partial<SetReport>,
  isWorse: (old: SetReport) => boolean,
): boolean {
  const last = session.sets.at(-1)
  if (!last?.report) return false
  const next: SetReport = { ...last.report, ...patch }
  const worse = isWorse(last.report)
  const record: SetRecord = worse ? { ...last, report: next, corrected: null } : { ...last, corrected: next }
  changeSession(draft, { sets: [...session.sets.slice(0, -1), record] })
  if (worse) {
    applyConsequence(draft)
    moveTop(draft, 'judged')
  }
  return worse
}

/** The session's conversation is taken to a state that decides, which brings it to the right question. */
function moveTop(draft: Draft<Chart>, state: string): void {
  const stack = draft.document.conversations
  const top = stack.at(-1)
  if (top?.flow === 'session') draft.converse({ conversations: [...stack.slice(0, -1), { ...top, state }] })
}
