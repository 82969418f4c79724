import { describe, expect, it } from 'vitest'
import type { Direction } from '#src/domain/direction.ts'
import type { Measurement, Plan } from '#src/domain/plan.ts'
import { laddersOf, plannedLadder } from '#src/rules/plan-ladders.ts'
import { allDirectionsPlan, extensionPlan } from '../support/sample-chain.ts'

const left: Direction = 'rotation-left'
const right: Direction = 'rotation-right'

function measured(direction: Direction, force: number, leverCm: number | null, unit: Measurement['unit'] = 'N'): Measurement {
  return { direction, force, unit, leverCm, on: null }
}

function orderOf(measurements: readonly Measurement[], plan: Plan = allDirectionsPlan): readonly Direction[] | undefined {
  return plannedLadder({ ...plan, measurements }, 'rotation')?.directions
}

describe('the ladders of a plan', () => {
  it('stand in the plan’s order, a pair of sides once', () => {
    expect(laddersOf(allDirectionsPlan)).toEqual(['extension', 'flexion', 'lateral-flexion', 'rotation', 'deep-flexors'])
  })

  it('are none for what the plan does not train', () => {
    expect([laddersOf(extensionPlan), plannedLadder(extensionPlan, 'rotation')]).toEqual([['extension'], null])
  })

  it('take what was shown on one side as shown on the other, and the lower rungs where the sides differ', () => {
    const ladders = allDirectionsPlan.ladders.map((ladder, index) =>
      ladder.direction === left ? { ...ladder, rung: 1, shown: [] } : ladder.direction === right ? { ...ladder, maxRung: 2 } : { ...ladder, rung: index },
    )
    const shown = allDirectionsPlan.ladders.find(({ direction }) => direction === right)?.shown ?? []
    expect(shown.length).toBeGreaterThan(0)
    expect(plannedLadder({ ...allDirectionsPlan, ladders }, 'rotation')).toMatchObject({ rung: 1, maxRung: 2, shown })
  })
})

describe('the side that is worked first', () => {
  it.each<readonly [string, readonly Measurement[], readonly Direction[]]>([
    ['is the weaker one', [measured(left, 60, null), measured(right, 50, null)], [right, left]],
    ['is the weaker one in whatever unit', [measured(left, 60, null), measured(right, 7, null, 'kgf')], [left, right]],
    ['is the weaker one by moment where both lever arms are known', [measured(left, 60, 8), measured(right, 50, 12)], [left, right]],
    ['is the weaker one by force where one is not', [measured(left, 60, 8), measured(right, 50, null)], [right, left]],
    ['goes by the latest test of each', [measured(left, 40, null), measured(right, 50, null), measured(left, 60, null)], [right, left]],
    ['is the plan’s where they are alike', [measured(left, 50, null), measured(right, 50, null)], [left, right]],
    ['is the plan’s where only one was measured', [measured(right, 50, null)], [left, right]],
  ])('%s', (_, measurements, expected) => {
    expect(orderOf(measurements)).toEqual(expected)
  })
})
