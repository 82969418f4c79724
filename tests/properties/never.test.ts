// What the rules never do, over whole scripts and through the very step.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { play } from '../support/rehearsed.ts'
import * as laws from './laws.ts'
import { runs, seed, timeoutMs } from './runs.ts'
import { anyCase, anyFlaggedScript } from './scripts.ts'

/** Played once for all laws; kept in order of length, so that the first breach is a short one. */
const corpus: readonly laws.Rehearsed[] = fc
  .sample(anyCase(anyFlaggedScript({ mostGood: 20, most: 14 })), { seed, numRuns: runs(60) })
  .map((one) => ({ ...one, sessions: play(one.plan, one.script) }))
  .toSorted((a, b) => a.sessions.length - b.sessions.length)

function breaches(law: laws.Law): readonly string[] {
  return corpus.flatMap((rehearsed) => law(rehearsed).map((breach) => `${rehearsed.name}: ${breach}; ${JSON.stringify(rehearsed.script)}`)).slice(0, 1)
}

const facts: readonly (readonly [string, laws.Law])[] = [
  ['load and repetitions never rise at once from one session to the next on a rung', laws.neverRaisesLoadAndRepetitions],
  ['a load step is at most 10 %, or comes after repetitions beyond the range', laws.raisesLoadByTenPercentAtMost],
  ['progress is one place at most', laws.progressesByOnePlace],
  ['nothing but progress raises a dose', laws.raisesOnlyAfterProgress],
  ['an eased dose is at least a tenth lower, or the lowest of its rung', laws.easesByTenPercentOrToTheLowest],
  ['every direction prescribed gets exactly one decision', laws.decidesOncePerDirection],
  ['every decision has a reason in words', laws.givesReasonsInWords],
  ['nothing progresses on a missing answer or a missing morning', laws.neverProgressesOnMissingAnswers],
  ['an urgent or emergency alert always locks, and nothing else does', laws.locksOnUrgentSignsAlone],
  ['words that raise a red flag always alarm', laws.alarmsOnFlaggedWords],
  ['a locked session has no prescription, sets or decisions', laws.isEmptyWhileLocked],
  ['no rung is entered that the therapist has not permitted', laws.entersNoRungUnapproved],
  ['no hold is longer than ten seconds', laws.holdsTenSecondsAtMost],
  ['no set asks for more than was prescribed', laws.asksNoMoreThanPrescribed],
  ['a rung has one unit of load, never 0', laws.printsLoadsInOneUnit],
  ['the two sides are asked the same and decided the same', laws.keepsSidesEqual],
  ['a stop on one side stops the other', laws.stopsBothSides],
  ['a session has at most four directions and twelve sets', laws.keepsSessionsShort],
  ['deep flexors come first', laws.activatesFirst],
]

describe(`scripts of all kinds (seed ${seed})`, { timeout: timeoutMs }, () => {
  it.each(facts)('%s', (_, law) => {
    expect(breaches(law)).toEqual([])
  })

  it('reach every rung, every decision, every level of alert and a lock', () => {
    const sessions = corpus.flatMap((rehearsed) => rehearsed.sessions)
    const reached = {
      rungs: [...new Set(sessions.flatMap((one) => one.prescription.flatMap(({ rung }) => rung ?? [])))].toSorted(),
      decisions: [...new Set(sessions.flatMap((one) => one.decisions.map(({ decision }) => decision)))].toSorted(),
      alerts: [...new Set(sessions.flatMap((one) => one.alerts.map(({ level }) => level)))].toSorted(),
      locked: [...new Set(sessions.map((one) => one.locked))].toSorted(),
    }
    expect(reached).toEqual({
      rungs: [1, 2, 3, 4, 5],
      decisions: ['ease', 'maintain', 'progress', 'step back', 'stop'],
      alerts: ['emergency', 'routine', 'urgent'],
      locked: [false, true],
    })
  })
})
