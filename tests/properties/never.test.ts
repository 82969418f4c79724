// What the rules never do, over whole scripts and through the very step.
import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import type { RehearsedSession } from '#src/commands/rehearse/collect-session.ts'
import { play } from '../support/rehearsed.ts'
import * as laws from './laws.ts'
import { runs, seed, timeoutMs } from './runs.ts'
import { anyCase, anyFlaggedScript } from './scripts.ts'

const facts: readonly (readonly [title: string, law: laws.Law])[] = [
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

interface Findings {
  /** By law, the breach in the shortest script. */
  readonly breaches: Map<laws.Law, { readonly sessions: number; readonly breach: string }>
  readonly rungs: Set<number>
  readonly decisions: Set<string>
  readonly alerts: Set<string>
  readonly locked: Set<boolean>
}

/** Every script is played once for all laws, and only what was found is kept: a nightly run has thousands of them. */
function playAll(): Findings {
  const found: Findings = { breaches: new Map(), rungs: new Set(), decisions: new Set(), alerts: new Set(), locked: new Set() }
  const scripts = fc.property(anyCase(anyFlaggedScript({ mostGood: 20, most: 14 })), (one) => {
    const rehearsed = { ...one, sessions: play(one.plan, one.script) }
    for (const [, law] of facts) noteBreach(found, law, rehearsed)
    for (const session of rehearsed.sessions) noteReached(found, session)
  })
  fc.assert(scripts, { seed, numRuns: runs(60) })
  return found
}

function noteBreach({ breaches }: Findings, law: laws.Law, rehearsed: laws.Rehearsed): void {
  const [breach] = law(rehearsed)
  const sessions = rehearsed.sessions.length
  if (breach === undefined || (breaches.get(law)?.sessions ?? Infinity) <= sessions) return
  breaches.set(law, { sessions, breach: `${rehearsed.name}: ${breach}; ${JSON.stringify(rehearsed.script)}` })
}

function noteReached(found: Findings, { prescription, decisions, alerts, locked }: RehearsedSession): void {
  for (const { rung } of prescription) if (rung !== null) found.rungs.add(rung)
  for (const { decision } of decisions) found.decisions.add(decision)
  for (const { level } of alerts) found.alerts.add(level)
  found.locked.add(locked)
}

describe(`scripts of all kinds (seed ${seed})`, { timeout: timeoutMs }, () => {
  let found: Findings
  beforeAll(() => {
    found = playAll()
  }, timeoutMs)

  it.each(facts)('%s', (_, law) => {
    expect(found.breaches.get(law)?.breach ?? null).toBeNull()
  })

  it('reach every rung, every decision, every level of alert and a lock', () => {
    const { rungs, decisions, alerts, locked } = found
    expect({ rungs: [...rungs].toSorted(), decisions: [...decisions].toSorted(), alerts: [...alerts].toSorted(), locked: [...locked].toSorted() }).toEqual({
      rungs: [1, 2, 3, 4, 5],
      decisions: ['ease', 'maintain', 'progress', 'step back', 'stop'],
      alerts: ['emergency', 'routine', 'urgent'],
      locked: [false, true],
    })
  })
})
