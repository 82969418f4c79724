// What a client types or presses, in the order in which it matters: a sign, the wish to stop, a command, a correction, an
// answer.
import { awaitingOf } from '#src/conversation/questions/registry.ts'
import { readMessage, type Command, type Reading } from '#src/conversation/reading/read-message.ts'
import type { RedFlag } from '#src/domain/triage.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { EventOf } from '../event.ts'
import { bringOn, closePrompt, deliver, flushNotes, openQuestion, push, renewQuestion, sayOutdated, takePress, takeText, takeTextIfAnswer, walkOn, type OpenQuestion } from '../turn.ts'
import { tellTherapist } from './alert-message.ts'
import { clientParty } from './client-party.ts'
import { correct } from './correct.ts'
import { correctWeek } from './correct-week.ts'
import { takeAlsoTold, takeSameAsBefore, takeUnfinished } from './also-told.ts'
import { beginAside, messageIn } from './asides.ts'
import { explain } from './explain.ts'
import { explainWhole } from './explain-whole.ts'
import { sendMessage } from './messages.ts'
import { planOf } from './plan-facts.ts'
import { isNewAlarm, raiseFlags } from './raise-flags.ts'
import { beginSessionConversation, givesWay, mayBeginSession } from './reminders.ts'
import { say } from './say.ts'
import { forClient } from './signs.ts'
import { askAboutSigns } from './symptom-actions.ts'
import { mayJoin, turnAway } from './turned-away.ts'

export function takeClientMessage(draft: Draft<Chart>, { text, isEdit, isExcess }: EventOf<'message'>): void {
  const open = openQuestion(draft)
  const language = draft.language(planOf(draft.document).client.language)
  const reading = readForClient(draft, readMessage(text, open ? awaitingOf(open.question) : 'nothing', language.lexicon))
  const { sure, known } = withoutKnown(draft, reading)
  if (isExcess === true && !isNewsOf(draft, sure, known, reading)) return
  if (sure.length > 0) raise(draft, sure, text, reading)
  else if (known.length > 0 && open?.conversation.state !== 'known') ask(draft, 'known', known, text, reading)
  else if (reading.unsureFlags.length > 0 && open?.conversation.flow !== 'symptom') ask(draft, isAboutNone(reading.unsureFlags) ? 'unclear' : 'confirm', reading.unsureFlags, text, reading)
  else if (!isEdit || reading.stop) takeWords(draft, text, reading)
  if (draft.notes.length > 0) flushNotes(draft, clientParty)
}

/**
 * In a flood only what is not known yet counts: a sign of which no alert is open, words that may mean one, or a long-standing
 * one, while none is asked about, and "stop" while there is something to stop or to leave.
 */
function isNewsOf(draft: Draft<Chart>, sure: readonly RedFlag[], known: readonly RedFlag[], reading: Reading): boolean {
  const open = openQuestion(draft)?.conversation.flow
  const { session, standing } = draft.document
  if (sure.length > 0) return sure.some((flag) => isNewAlarm(draft, flag))
  if (reading.unsureFlags.length + known.length > 0 && open !== 'symptom') return true
  if (reading.command === 'withdraw' && standing === 'active' && open !== 'withdrawal') return true
  return reading.stop && session !== null
}

/** The same words may weigh more for one client than for another. */
function readForClient(draft: Draft<Chart>, reading: Reading): Reading {
  const weigh = (flags: readonly RedFlag[]): readonly RedFlag[] => flags.map((flag) => forClient(draft, flag))
  return { ...reading, redFlags: weigh(reading.redFlags), unsureFlags: weigh(reading.unsureFlags) }
}

function raise(draft: Draft<Chart>, flags: readonly RedFlag[], text: string, reading: Reading): void {
  const { stop: isStop, command } = reading
  draft.record('words', 'client', { text })
  const isRoutine = flags.every((flag) => flag.level === 'routine')
  if (isRoutine) draft.say(say(draft, 'client').text('flag.routine'))
  raiseFlags(draft, flags, { words: text, isConfirmed: true, ...matchedIn(text, reading) })
  // "Not today, fever" is a symptom and a wish: it is told, and the session is left.
  if (isRoutine && isStop) return stop(draft)
  if (isRoutine && command === 'not-today' && openQuestion(draft)) return leave(draft, 'not-today')
  // "Ill" is told, and says what the break is for.
  if (isRoutine && takeTextIfAnswer(draft, clientParty, text, reading)) return
  closePrompt(draft, clientParty, null)
  bringOn(draft, clientParty)
}

/** What the therapist reads of how it was understood. */
function matchedIn(text: string, { matched }: Reading): { readonly matched?: string } {
  const words = [...new Set(matched.map((one) => one.words))].join('”, “')
  return words === '' || words === text.trim() ? {} : { matched: words }
}

/** The words sound like a sign, and like none in particular. */
function isAboutNone(flags: readonly RedFlag[]): boolean {
  return flags.every(({ sign }) => sign === 'something-else')
}

function ask(draft: Draft<Chart>, state: 'confirm' | 'unclear' | 'known', flags: readonly RedFlag[], text: string, reading: Reading): void {
  draft.record('words', 'client', { text })
  // Whoever asks to stop has stopped, whatever else their words may mean.
  if (reading.stop && openQuestion(draft)) {
    sayStopped(draft)
    endOpen(draft, 'stop')
    walkOn(draft, clientParty)
  }
  askAboutSigns(draft, state, flags, { said: text, ...matchedIn(text, reading) })
  bringOn(draft, clientParty)
}

/** A long-standing sign that the therapist recorded alarms only when it is worse, new or spread; an emergency always. */
function withoutKnown(draft: Draft<Chart>, { redFlags }: Reading): { readonly sure: readonly RedFlag[]; readonly known: readonly RedFlag[] } {
  const recorded = planOf(draft.document).knownSigns.map((known) => known.sign)
  const isKnown = (flag: RedFlag): boolean => flag.level !== 'emergency' && recorded.includes(flag.sign)
  const sure = redFlags.filter((flag) => !isKnown(flag))
  return { sure, known: sure.length > 0 ? [] : redFlags.filter(isKnown) }
}

function takeWords(draft: Draft<Chart>, text: string, reading: Reading): void {
  const isRenewed = renewQuestion(draft, clientParty)
  const open = openQuestion(draft)
  if (isDictated(draft, open, text, reading)) return takeText(draft, clientParty, text, reading)
  if (reading.stop) return stopOrLeave(draft, reading)
  if (draft.document.lock && !open && !isRenewed && !heardWhileLocked.has(reading.command)) return answerWhileLocked(draft, text, reading)
  if (reading.command !== null && commands[reading.command]?.(draft, text) === true) return
  if (isRenewed) return
  if (correct(draft, text, reading, open) || correctWeek(draft, text, reading, open)) return
  if (takeUnfinished(draft, reading) || takeSameAsBefore(draft, reading)) return
  if (open) return takeText(draft, clientParty, text, reading, () => takeAlsoTold(draft, reading))
  sayIdle(draft)
}

/** In a message to the therapist, "can we change the times?" is what is to be passed on, and no command. */
function isDictated({ document }: Draft<Chart>, open: OpenQuestion | null, text: string, { command }: Reading): boolean {
  if (open?.flow.id !== 'message' || document.session !== null || command === 'help' || command === 'symptom') return false
  return text.trim().split(/\s+/).length > mostWordsOfCommand
}
const mostWordsOfCommand = 3

/** True where the command was carried out; false where it is an answer to the open question. */
const commands: Readonly<Partial<Record<Command, (draft: Draft<Chart>, text: string) => boolean>>> = {
  help: (draft) => {
    draft.say(say(draft, 'client').text('common.help', { number: planOf(draft.document).emergencyNumber }))
    bringOn(draft, clientParty)
    return true
  },
  why: (draft) => {
    draft.say(explain(draft))
    bringOn(draft, clientParty)
    return true
  },
  'why-exactly': (draft) => {
    draft.say(explainWhole(draft))
    bringOn(draft, clientParty)
    return true
  },
  symptom: (draft, text) => {
    if (openQuestion(draft)?.conversation.flow === 'symptom') return false
    // Whoever says that something is wrong and then falls silent is not forgotten.
    push(draft, 'symptom', 'ask', { signs: ['something-else'], said: text })
    bringOn(draft, clientParty)
    return true
  },
  'not-today': (draft) => {
    if (!openQuestion(draft)) return false
    leave(draft, 'not-today')
    return true
  },
  pause: (draft) => beginAside(draft, 'pause'),
  'change-times': (draft) => beginAside(draft, 'times'),
  'move-zone': (draft) => beginAside(draft, 'zone'),
  withdraw: (draft) => beginAside(draft, 'withdrawal'),
  'write-therapist': (draft, text) => {
    const said = messageIn(text)
    if (said === null) return beginAside(draft, 'message')
    sendMessage(draft, said)
    bringOn(draft, clientParty)
    return true
  },
  ready: (draft) => {
    const open = openQuestion(draft)?.conversation
    // Whoever has left and wants to train again is asked for their agreement anew.
    if (open === undefined && draft.document.standing === 'withdrawn') {
      askForConsent(draft)
      return true
    }
    if ((open !== undefined && !givesWay(open)) || !mayBeginSession(draft)) return false
    beginSessionConversation(draft)
    // Who says that they are ready is not asked whether they are.
    deliver(draft, clientParty, { type: 'answer', value: 'ready' })
    bringOn(draft, clientParty)
    return true
  },
}

/** "I stop for good" stops at once, and then asks whether that is meant. */
function stopOrLeave(draft: Draft<Chart>, { command }: Reading): void {
  const isLeaving = command === 'withdraw' && openQuestion(draft)?.conversation.flow !== 'withdrawal'
  if (!isLeaving || draft.document.session !== null || openQuestion(draft) !== null) stop(draft)
  if (isLeaving) commands.withdraw?.(draft, '')
}

function stop(draft: Draft<Chart>): void {
  const { text } = say(draft, 'client')
  if (!openQuestion(draft)) return draft.say(text(draft.document.lock ? 'common.locked-stop' : 'common.nothing-to-stop'))
  sayStopped(draft)
  leave(draft, 'stop')
}

function sayStopped(draft: Draft<Chart>): void {
  draft.record('stop', 'client', {})
  draft.say(say(draft, 'client').text('common.stopped'))
}

function leave(draft: Draft<Chart>, type: 'stop' | 'not-today'): void {
  endOpen(draft, type)
  bringOn(draft, clientParty)
}

/** Whoever stops while another question lies on top of the session, or of the week's, has ended that too. */
function endOpen(draft: Draft<Chart>, type: 'stop' | 'not-today'): void {
  const left = openQuestion(draft)?.conversation.flow
  closePrompt(draft, clientParty, null)
  const isLeft = deliver(draft, clientParty, { type })
  if (isLeft && left !== 'session' && draft.notes.length === 0) draft.say(say(draft, 'client').text('session.not-today-noted-only'))
  const below = draft.document.conversations.at(-1)?.flow
  if (left !== below && (below === 'session' || below === 'weekly')) deliver(draft, clientParty, { type: 'close' })
}

const heardWhileLocked: ReadonlySet<Command | null> = new Set([
  'help', 'why', 'why-exactly', 'write-therapist', 'change-times', 'move-zone', 'withdraw',
])

/** Nobody may be reading here, which is said; the words go to the therapist all the same. "Something is wrong" is asked about. */
function answerWhileLocked(draft: Draft<Chart>, words: string, { command }: Reading): void {
  const plan = planOf(draft.document)
  draft.record('words', 'client', { text: words })
  draft.say(say(draft, 'client').text('common.locked', { number: plan.emergencyNumber, outOfHours: plan.outOfHoursNumber }))
  const text = say(draft, 'therapist').text('alert.wrote-while-locked', { client: plan.client.name, words })
  tellTherapist(draft, { text, buttons: [], urgency: 'reply', alert: null })
  if (command === 'symptom') commands.symptom?.(draft, words)
}

function sayIdle(draft: Draft<Chart>): void {
  const { text, time } = say(draft, 'client')
  const next = draft.document.timers.find((timer) => timer.kind === 'reminder')
  if (draft.document.standing === 'refused') return draft.say(text('consent.refused'))
  if (draft.document.standing === 'invited') return askForConsent(draft)
  if (draft.document.standing === 'withdrawn') return draft.say(text('withdrawal.idle', { number: planOf(draft.document).emergencyNumber }))
  draft.say(text('common.idle', { next: next ? time(next.dueAt) : '–', isPossible: mayBeginSession(draft) ? 'yes' : 'no' }))
}

function askForConsent(draft: Draft<Chart>): void {
  if (!mayJoin(draft)) return turnAway(draft)
  push(draft, 'consent')
  bringOn(draft, clientParty)
}

/** Something that is no text: said so, and the question asked again. */
export function takeUnreadable(draft: Draft<Chart>): void {
  draft.say(say(draft, 'client').text('common.unreadable-client', { number: planOf(draft.document).emergencyNumber }))
  bringOn(draft, clientParty)
  flushNotes(draft, clientParty)
}

export function takeClientPress(draft: Draft<Chart>, { data, isExcess }: EventOf<'press'>): void {
  const match = /^p:(\d+):(.*)$/s.exec(data)
  const belongsToOpen = (): boolean => match !== null && Number(match[1]) === draft.document.prompt?.number
  // Whoever presses what is asked now has read it, however many other answers still wait for the network.
  if (isExcess === true && !belongsToOpen()) return
  renewQuestion(draft, clientParty)
  const isOpen = belongsToOpen()
  if (!isOpen) return sayOutdated(draft, clientParty)
  takePress(draft, clientParty, match?.[2] ?? '')
  flushNotes(draft, clientParty)
}
