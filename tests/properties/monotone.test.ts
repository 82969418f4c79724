// A worse answer never leads to more: the promise of the rules, kept over whole scripts and through the very step.
import fc, { type Arbitrary } from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { RehearsedSession } from '#src/commands/rehearse/collect-session.ts'
import { ladderOf, type Direction } from '#src/domain/direction.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { Control } from '#src/domain/set-report.ts'
import { play } from '../support/rehearsed.ts'
import { compareHardness, describePrescription, workOf } from './hardness.ts'
import { parameters, seed, timeoutMs } from './runs.ts'
import { anyCase, anyScript, type Case } from './scripts.ts'
import { pickWorsening, type Worsened } from './worsen.ts'

/**
 * The sessions in which the worse script is asked for more, of whatever direction. A session without a prescription is left
 * out on the better side: a harder rung rests longer between sessions, so that a client who stayed lower may train on a
 * day on which the other rests.
 */
function raised(better: readonly RehearsedSession[], plan: Plan, worsened: Worsened): readonly string[] {
  const { script, session, how, kind } = worsened
  const worse = play(plan, script)
  const first = kind === 'before' ? session : session + 1
  const compared = directionsIn(plan).filter((direction) => !isLeftUnasked(better[session], worse[session], worsened, direction))
  return compared.flatMap((direction) =>
    better.flatMap((one, index) => {
      const [base, again] = [workOf(one, direction), workOf(worse[index], direction)]
      const isComparable = index >= first && (base !== null || one.locked)
      if (!isComparable || compareHardness(again, base) <= 0) return []
      return [`${how}; session ${index}: ${describePrescription(base)} became ${describePrescription(again)}`]
    }),
  )
}

function directionsIn(plan: Plan): readonly Direction[] {
  return plan.ladders.map(({ direction }) => direction)
}

/** The one exception: an earlier end of the session left another direction's bad answer unasked. */
function isLeftUnasked(better: RehearsedSession | undefined, worse: RehearsedSession | undefined, { direction: own }: Worsened, direction: Direction): boolean {
  if (own === null || ladderOf(own) === ladderOf(direction)) return false
  const isOnLadder = (set: { readonly direction: Direction }): boolean => ladderOf(set.direction) === ladderOf(direction)
  const asked = (worse?.sets ?? []).filter(isOnLadder).length
  return (better?.sets ?? []).filter(isOnLadder).slice(asked).some(({ answer }) => answer === null || !isGood(answer))
}

function isGood({ pain, control, reserve }: { readonly pain: number; readonly control: Control; readonly reserve: number }): boolean {
  return pain <= 2 && control === 'steady' && reserve >= 2
}

function neverRaises(cases: Arbitrary<Case>, usualRuns: number, share = 1): void {
  fc.assert(
    fc.property(cases, anyPicks, ({ plan, script }, picks) => {
      const better = play(plan, script)
      const worsened = picks.flatMap((pick) => pickWorsening(script, pick) ?? [])
      expect(worsened.flatMap((one) => raised(better, plan, one))).toEqual([])
    }),
    parameters(usualRuns, share),
  )
}

/** Each script is made worse in some ways, one at a time. */
const anyPicks = fc.array(fc.nat({ max: 100_000 }), { minLength: 4, maxLength: 4 })

describe(`one answer made worse (seed ${seed})`, () => {
  it('never makes a later prescription harder, nor that of the same session where pain before it is worse', { timeout: timeoutMs }, () => {
    neverRaises(anyCase(anyScript({ mostGood: 8, most: 10 })), 24)
  })

  it('never makes a later prescription harder for a client who has climbed to the band and the harness', { timeout: timeoutMs }, () => {
    neverRaises(anyCase(anyScript({ leastGood: 20, mostGood: 45, most: 8 })), 4, 0.2)
  })
})
