import { findWhole } from './clauses.ts'
import type { Found, Occurrence } from './find-phrases.ts'
import type { MarkedText } from './marked-text.ts'
import { ownTokens } from './marked-text.ts'

export type Command =
  | 'stop'
  | 'help'
  | 'why'
  | 'why-exactly'
  | 'not-today'
  | 'later'
  | 'done'
  | 'skip'
  | 'ready'
  | 'none'
  | 'symptom'
  /** No training for days: illness, travel. */
  | 'pause'
  | 'change-times'
  | 'move-zone'
  | 'write-therapist'
  /** Out of the programme for good. */
  | 'withdraw'

/** In the order in which they count when several are said; help comes before all that goes on. */
const listed: Readonly<Record<Exclude<Command, 'stop'>, number>> = {
  help: 0, symptom: 1, withdraw: 2, pause: 3, 'write-therapist': 4, 'change-times': 5, 'move-zone': 6, 'not-today': 7, later: 8,
  skip: 9, 'why-exactly': 10, why: 11, done: 12, ready: 13, none: 14,
}
const commands = (Object.keys(listed) as readonly Exclude<Command, 'stop'>[]).toSorted((a, b) => listed[a] - listed[b])

/** Whether the client wants to stop, in any words; "don't stop" and "good enough" do not. */
export function wantsToStop(text: MarkedText): boolean {
  const { found } = text
  const other = new Set([...found.all('not-stop'), ...found.all('harmless')].flatMap(ownTokens))
  const isFree = (it: Occurrence): boolean => !ownTokens(it).some((index) => other.has(index) || text.isSymptomWord(index))
  return found.all('stop-anywhere').some(isFree) || isWholeStop(found, isFree)
}

function isWholeStop(found: Found, isFree: (it: Occurrence) => boolean): boolean {
  const whole = findWhole('stop-whole', found)
  return whole !== undefined && isFree(whole)
}

/** A command that is all a clause says. "I stop for good" is both the wish to stop and the wish to leave. */
export function readCommand(found: Found, isStop: boolean): Command | null {
  if (isStop) return findWhole('withdraw', found) === undefined ? 'stop' : 'withdraw'
  return commands.find((command) => findWhole(command, found) !== undefined) ?? null
}
