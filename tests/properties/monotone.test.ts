// A worse answer never leads to more: the promise of the rules, kept over whole scripts and through the very step.
import fc, { type Arbitrary } from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Answers } from '#src/commands/rehearse/answers-schema.ts'
import type { RehearsedSession } from '#src/commands/rehearse/collect-session.ts'
import type { Plan } from '#src/domain/plan.ts'
import { play } from '../support/rehearsed.ts'
import { compareHardness, describePrescription, workOf } from './hardness.ts'
import { parameters, seed, timeoutMs } from './runs.ts'
import { anyPlan, anyScript } from './scripts.ts'
import { pickWorsening, type Worsened } from './worsen.ts'

/**
 * The sessions in which the worse script is asked for more. A session without a prescription is left out on the better
 * side: a harder rung rests longer between sessions, so that a client who stayed lower may train on a day on which the
 * other rests.
 */
function raised(better: readonly RehearsedSession[], plan: Plan, { script, session, how, kind }: Worsened): readonly string[] {
  const worse = play(plan, script)
  const first = kind === 'before' ? session : session + 1
  return better.flatMap((one, index) => {
    const [base, again] = [workOf(one), workOf(worse[index])]
    const isComparable = index >= first && (base !== null || one.locked)
    if (!isComparable || compareHardness(again, base) <= 0) return []
    return [`${how}; session ${index}: ${describePrescription(base)} became ${describePrescription(again)}`]
  })
}

function neverRaises(anyCase: Arbitrary<readonly [{ readonly plan: Plan }, Answers, readonly number[]]>, usualRuns: number): void {
  fc.assert(
    fc.property(anyCase, ([{ plan }, script, picks]) => {
      const better = play(plan, script)
      const worsened = picks.flatMap((pick) => pickWorsening(script, pick) ?? [])
      expect(worsened.flatMap((one) => raised(better, plan, one))).toEqual([])
    }),
    parameters(usualRuns),
  )
}

/** Each script is made worse in some ways, one at a time. */
const anyPicks = fc.array(fc.nat({ max: 100_000 }), { minLength: 4, maxLength: 4 })

describe(`one answer made worse (seed ${seed})`, () => {
  it('never makes a later prescription harder, nor that of the same session where pain before it is worse', { timeout: timeoutMs }, () => {
    neverRaises(fc.tuple(anyPlan, anyScript({ mostGood: 8, most: 10 }), anyPicks), 24)
  })

  it('never makes a later prescription harder for a client who has climbed to the band and the harness', { timeout: timeoutMs }, () => {
    neverRaises(fc.tuple(anyPlan, anyScript({ leastGood: 20, mostGood: 45, most: 8 }), anyPicks), 4)
  })
})
