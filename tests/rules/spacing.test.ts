// Common practice, no source: band 20 hours apart, harness and bridge 40 hours and at most three in seven days.
import { describe, expect, it } from 'vitest'
import { newLadderState, type LadderState } from '#src/rules/ladder-state.ts'
import { isSpaced } from '#src/rules/spacing.ts'
import { chainFor, content, extensionPlan } from '../support/sample-chain.ts'
import type { Exercise } from '#src/domain/exercise.ts'
import { brandAs, type ExerciseId } from '#src/domain/identifier.ts'

const hourMs = 3_600_000
const minuteMs = 60_000
const now = Date.UTC(2026, 0, 30, 18)

function exercise(id: string): Exercise {
  const found = content.exercises.get(brandAs<ExerciseId>(id))
  if (found === undefined) throw new RangeError(`no exercise ${id}`)
  return found
}

/** Sessions so many milliseconds ago, the oldest first. */
function state(agoMs: readonly number[], isRationed = true): LadderState {
  const [place] = chainFor(extensionPlan).places
  if (place === undefined) throw new RangeError('an empty chain')
  return { ...newLadderState(place), recent: agoMs.map((ago) => ({ at: now - ago, isRationed })) }
}

describe('the time between sessions', () => {
  it.each([
    ['seated-hold-two-hands', 0, true],
    ['seated-band', 20 * hourMs - minuteMs, false],
    ['seated-band', 20 * hourMs, true],
    ['seated-harness', 40 * hourMs - minuteMs, false],
    ['seated-harness', 40 * hourMs, true],
    ['supported-bridge', 40 * hourMs - minuteMs, false],
    ['supported-bridge', 40 * hourMs, true],
  ])('of %s, %i ms after the last, is enough: %s', (id, ago, expected) => {
    expect(isSpaced(exercise(id), state([ago]), now)).toBe(expected)
  })

  it('is enough before the first', () => {
    expect(['seated-band', 'seated-harness', 'supported-bridge'].map((id) => isSpaced(exercise(id), state([]), now))).toEqual([true, true, true])
  })

  it('counts from the last, not from an earlier one', () => {
    expect(isSpaced(exercise('seated-harness'), state([90 * hourMs, 30 * hourMs]), now)).toBe(false)
  })
})

describe('at most three in seven days', () => {
  const week = 7 * 24 * hourMs
  const [second, third] = [5 * 24 * hourMs, 2 * 24 * hourMs]

  it.each([
    ['a fourth within the week is too many', 'seated-harness', [week - minuteMs, second, third], true, false],
    ['seven days after the first it is not', 'seated-harness', [week, second, third], true, true],
    ['a third is not', 'seated-harness', [second, third], true, true],
    ['holds and band are not counted', 'seated-harness', [week - minuteMs, second, third], false, true],
    ['the band has no such limit', 'seated-band', [week - minuteMs, second, third], true, true],
    ['harness and bridge share it', 'supported-bridge', [week - minuteMs, second, third], true, false],
  ] as const)('%s', (_, id, ago, isRationed, expected) => {
    expect(isSpaced(exercise(id), state(ago, isRationed), now)).toBe(expected)
  })
})
