// A worse answer never leads to more: the promise of the rules, kept over whole scripts and through the very step.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Answers } from '#src/commands/rehearse/answers-schema.ts'
import type { Plan } from '#src/domain/plan.ts'
import { play } from '../support/rehearsed.ts'
import { compareHardness, describePrescription, workOf } from './hardness.ts'
import { runs, seed, timeoutMs } from './runs.ts'
import { anyPlan, anyScript } from './scripts.ts'
import { worsenings, type Worsened } from './worsen.ts'

/**
 * The sessions in which the worse script is asked for more. A session without a prescription is left out on the better
 * side: a harder rung rests longer between sessions, so that a client who stayed lower may train on a day on which the
 * other rests.
 */
function raised(plan: Plan, script: Answers, { script: worse, session, how }: Worsened): readonly string[] {
  const [better, after] = [play(plan, script), play(plan, worse)]
  const first = how.includes('pain before') ? session : session + 1
  return better.flatMap((one, index) => {
    const [base, again] = [workOf(one), workOf(after[index])]
    const isComparable = index >= first && (base !== null || one.locked)
    if (!isComparable || compareHardness(again, base) <= 0) return []
    return [`${how}; session ${index}: ${describePrescription(base)} became ${describePrescription(again)}`]
  })
}

function isNeverRaised(script: Answers, plan: Plan, pick: number): void {
  const all = worsenings(script)
  const worsened = all[pick % Math.max(1, all.length)]
  expect(worsened === undefined ? [] : raised(plan, script, worsened)).toEqual([])
}

describe(`one answer made worse (seed ${seed})`, () => {
  it('never makes a later prescription harder, nor that of the same session where pain before it is worse', { timeout: timeoutMs }, () => {
    const anyCase = fc.tuple(anyPlan, anyScript({ mostGood: 8, most: 10 }), fc.nat())
    fc.assert(fc.property(anyCase, ([{ plan }, script, pick]) => isNeverRaised(script, plan, pick)), { seed, numRuns: runs(45) })
  })

  it('never makes a later prescription harder for a client who has climbed to the band and the harness', { timeout: timeoutMs }, () => {
    const anyCase = fc.tuple(anyPlan, anyScript({ leastGood: 20, mostGood: 45, most: 8 }), fc.nat())
    fc.assert(fc.property(anyCase, ([{ plan }, script, pick]) => isNeverRaised(script, plan, pick)), { seed, numRuns: runs(8) })
  })
})
