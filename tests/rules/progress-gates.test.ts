import { describe, expect, it } from 'vitest'
import type { Reason } from '#src/domain/decision.ts'
import { brandAs, type ExerciseId } from '#src/domain/identifier.ts'
import { newLadderState } from '#src/rules/ladder-state.ts'
import { progressGates, type GateFacts } from '#src/rules/progress-gates.ts'
import { chainFor, coarsePlan, content, extensionPlan, novice, placeNamed } from '../support/sample-chain.ts'

const chain = chainFor(extensionPlan)
const shown = ['seated-hold-two-hands', 'seated-band', 'seated-harness', 'supported-bridge'].map(brandAs<ExerciseId>)

/** In the middle of a rung, with nothing in the way. */
function facts(place: string, changes: Partial<GateFacts> = {}): GateFacts {
  const own = changes.chain ?? chain
  return {
    chain: own,
    state: newLadderState(placeNamed(own, place)),
    protocol: novice(),
    exercises: content.exercises,
    usualPain: 1,
    weeklyAverage: null,
    daysSinceReview: 0,
    shown,
    hasApproval: false,
    sessionsOnRung: 6,
    daysOnRung: 14,
    ...changes,
  }
}

const middle = '3 3 × 10, 19.6 N'
const endOfHolds = '2 3 × 5 × 10 s, push 5, again'
const endOfBand = '3 3 × 12, 25.2 N, again'
const needsApproval = (rung: number): Reason => ({ rule: 'rung-needs-approval', numbers: { rung } })

describe('what the client stands in the way of', () => {
  it.each<readonly [string, Partial<GateFacts>, readonly Reason[]]>([
    ['nothing in the middle of a rung', {}, []],
    ['usual pain of 4 is no gate', { usualPain: 4 }, []],
    ['usual pain of 5 is one', { usualPain: 5 }, [{ rule: 'usual-pain-high', numbers: { usual: 5, limit: 5 } }]],
    ['a weekly average one above usual is no gate', { weeklyAverage: 2 }, []],
    ['a weekly average two above usual is one', { weeklyAverage: 3 }, [{ rule: 'weekly-average-high', numbers: { average: 3, limit: 3 } }]],
    ['27 days without a review are no gate', { daysSinceReview: 27 }, []],
    ['28 days without a review are one', { daysSinceReview: 28 }, [{ rule: 'supervision-lapsed', numbers: { days: 28, limit: 28 } }]],
  ])('%s', (_, changes, expected) => {
    expect(progressGates(facts(middle, changes))).toEqual(expected)
  })

  it('the sessions after a lock are a gate until none is left', () => {
    const gates = [2, 1, 0].map((sessionsWithoutProgress) => progressGates(facts(middle, { state: { ...newLadderState(placeNamed(chain, middle)), sessionsWithoutProgress } })))
    expect(gates).toEqual([[{ rule: 'no-progress-after-lock', numbers: { sessions: 2 } }], [{ rule: 'no-progress-after-lock', numbers: { sessions: 1 } }], []])
  })

  it('all gates are named at once', () => {
    const all = facts(middle, { usualPain: 5, weeklyAverage: 7, daysSinceReview: 30 })
    expect(progressGates(all).map((gate) => gate.rule)).toEqual(['usual-pain-high', 'weekly-average-high', 'supervision-lapsed'])
  })
})

describe('what stands between two rungs', () => {
  it.each<readonly [string, string, Partial<GateFacts>, readonly Reason[]]>([
    ['the band once shown is open', endOfHolds, {}, []],
    ['the band not shown is closed', endOfHolds, { shown: shown.slice(0, 1) }, [{ rule: 'rung-not-shown', numbers: { rung: 3 } }]],
    ['one place before the end of a rung nothing is asked yet', '2 3 × 5 × 10 s, push 5', { shown: [] }, []],
    ['the harness needs approval', endOfBand, {}, [needsApproval(4)]],
    ['the harness approved is open', endOfBand, { hasApproval: true }, []],
    ['approval does not stand in for having been shown', endOfBand, { hasApproval: true, shown: shown.slice(0, 2) }, [{ rule: 'rung-not-shown', numbers: { rung: 4 } }]],
    ['the bridge needs approval', '4 3 × 12, 2.9 kg, again', {}, [needsApproval(5)]],
    ['the lowest rung is left with the therapist\'s word', '1 3 × 5 × 10 s, again', {}, [needsApproval(2)]],
    ['the lowest rung is left with it', '1 3 × 5 × 10 s, again', { hasApproval: true }, []],
    ['holds are left however short the stay', endOfHolds, { sessionsOnRung: 1, daysOnRung: 0 }, []],
    ['the top says so', '5 3 × 8 × 5 s, again', {}, [{ rule: 'top-of-ladder', numbers: { rung: 5 } }]],
  ])('%s', (_, place, changes, expected) => {
    expect(progressGates(facts(place, changes))).toEqual(expected)
  })

  it.each([
    [6, 14, true],
    [5, 14, false],
    [6, 13, false],
  ])('a loaded rung after %i sessions and %i days is left: %s', (sessionsOnRung, daysOnRung, isLeft) => {
    const tooSoon: Reason = { rule: 'rung-too-soon', numbers: { sessions: sessionsOnRung, neededSessions: 6, days: daysOnRung, neededDays: 14 } }
    expect(progressGates(facts(endOfBand, { hasApproval: true, sessionsOnRung, daysOnRung }))).toEqual(isLeft ? [] : [tooSoon])
  })
})

describe('a large load step', () => {
  // Strong enough for the plates above the ceiling of the plan to try.
  const strong = coarsePlan.measurements.map((measurement) => ({ ...measurement, force: 200 }))
  const coarse = chainFor({ ...coarsePlan, measurements: strong })

  it.each<readonly [string, string, boolean, readonly Reason[]]>([
    ['above half needs approval', '4 3 × 16, 0.4 kg, again', false, [needsApproval(4)]],
    ['above half is open with it', '4 3 × 16, 0.4 kg, again', true, []],
    ['of 42 % needs none', '4 3 × 16, 2.4 kg, again', false, []],
  ])('%s', (_, place, hasApproval, expected) => {
    expect(progressGates(facts(place, { chain: coarse, hasApproval }))).toEqual(expected)
  })
})
