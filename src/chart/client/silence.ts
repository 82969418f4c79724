// Silence in the middle of a set is noticed: asked once, then the session pauses; with a weight on, the therapist is told.
import type { Conversation } from '#src/conversation/flow.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withoutTimer, withTimer } from '../timer.ts'
import { exerciseOf, planOf, protocolOf } from './plan-facts.ts'
import { raiseRoutine } from './raise-routine.ts'
import { say } from './say.ts'
import { nextSet } from './session-state.ts'

const secondMs = 1000
const minuteMs = 60 * secondMs
/** A repetition without a hold, and the pause between two. */
const repetitionSeconds = 4
const warmUpMinutes = 10

/** Starts the wait anew with every question about training; other questions are not waited for. */
export function waitForSilence(draft: Draft<Chart>, conversation: Conversation): void {
  const timers = withoutTimer(draft.document.timers, 'silence')
  const expectedMs = expectedOf[conversation.state]?.(draft)
  if (expectedMs === undefined) return draft.change({ timers })
  const { askAfterMinutes } = protocolOf(planOf(draft.document), draft.content).silence
  const dueAt = draft.at + expectedMs + askAfterMinutes * minuteMs
  draft.change({ timers: withTimer(timers, { kind: 'silence', about: 'ask', dueAt }) })
}

const expectedOf: Readonly<Record<string, (draft: Draft<Chart>) => number>> = {
  'warm-up': () => warmUpMinutes * minuteMs,
  set: expectedSet,
  pain: () => 0,
  control: () => 0,
  reserve: () => 0,
}

function expectedSet(draft: Draft<Chart>): number {
  const next = nextSet(draft)
  if (!next) return 0
  const { restSeconds } = exerciseOf(draft.content, next.prescribed.place.exercise)
  return (restSeconds + next.dose.reps * ((next.dose.holdSeconds ?? 0) + repetitionSeconds)) * secondMs
}

/** Begins anew the wait of a session under way: whoever was silent while no network was heard may have answered all the same. */
export function waitAnewForSilence(draft: Draft<Chart>): void {
  const { conversations, timers } = draft.document
  const session = conversations.findLast(({ flow }) => flow === 'session')
  if (session !== undefined && timers.some(({ kind }) => kind === 'silence')) waitForSilence(draft, session)
}

/** The question has been asked again; the next silence pauses the session. */
export function waitForPause(draft: Draft<Chart>): void {
  const { askAfterMinutes, pauseAfterMinutes } = protocolOf(planOf(draft.document), draft.content).silence
  const dueAt = draft.at + (pauseAfterMinutes - askAfterMinutes) * minuteMs
  const timers = withoutTimer(draft.document.timers, 'silence')
  draft.change({ timers: withTimer(timers, { kind: 'silence', about: 'pause', dueAt }) })
}

export function pauseForSilence(draft: Draft<Chart>): void {
  draft.record('session-paused', 'nuchal', {})
  draft.say(say(draft, 'client').text('session.paused'))
  const next = nextSet(draft)
  if (!next || !exerciseOf(draft.content, next.prescribed.place.exercise).isSilenceTold) return
  const { text, words } = say(draft, 'therapist')
  const exercise = words.exerciseName(next.prescribed.place.exercise)
  raiseRoutine(draft, { title: text('alert.silent', { exercise }), ladder: next.prescribed.ladder, request: null })
}
