// Maximal forces in a plan file. Means of 220 healthy women, Salo 2006: extension 190.8 N, flexion 73.8 N; ten times a mean is
// refused, and how far off a doubt begins is our choice.
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { formatProblem } from '#src/content/problem.ts'
import { readPlan, readPlanToTry } from '#src/content/read-plan.ts'
import { problemsOf } from '#tests/support/content-copy.ts'
import { content } from '#tests/support/sample-chain.ts'

const shipped = readFileSync('content/plans/extension.yaml', 'utf8')

/** The plan to try with another measurement. */
function planWith(measurement: string): string {
  return shipped.replace('direction: extension, force: 120, unit: N', measurement)
}

function complaintsAbout(measurement: string): readonly string[] {
  return problemsOf(() => readPlan(planWith(measurement), 'plan.yaml', content)).map(formatProblem)
}

const confirm = 'Correct it, or write "confirmed: true" beside it if it was measured so.'

describe('a maximal force in a plan', () => {
  it.each([
    ['in kilograms called newtons is asked about', 'direction: extension, force: 12, unit: N', `force is unusual for this direction; as so many kgf it would be usual. ${confirm}`],
    ['in newtons called kilograms is asked about', 'direction: extension, force: 120, unit: kgf', `force is unusual for this direction; as so many N it would be usual. ${confirm}`],
    ['far below what is usual is asked about', 'direction: extension, force: 1, unit: N', `force is far below what is usual for this direction. ${confirm}`],
    ['of trials that lie far apart is asked about', 'direction: extension, force: 120, trials: [50, 120], unit: N', `trials lie far apart. ${confirm}`],
    ['of ten times the usual is refused', 'direction: flexion, force: 738, unit: N', 'force is ten times what is usual for this direction, or more. Check the number and its unit.'],
    ['of ten times the usual is refused though confirmed', 'direction: flexion, force: 738, unit: N, confirmed: true', 'force is ten times what is usual for this direction, or more. Check the number and its unit.'],
  ])('%s', (_, measurement, complaint) => {
    expect(complaintsAbout(measurement)).toEqual([`plan.yaml:36: measurements[0].${complaint}`])
  })

  it('is taken once it is confirmed', () => {
    const plan = readPlan(planWith('direction: extension, force: 12, unit: N, confirmed: true'), 'plan.yaml', content)
    expect(plan.measurements).toEqual([{ direction: 'extension', force: 12, unit: 'N', leverCm: null, on: null, isConfirmed: true }])
  })

  it('may be tried without, and what seems wrong is told', () => {
    const { plan, doubts } = readPlanToTry(planWith('direction: extension, force: 12, unit: N'), 'plan.yaml', content)
    expect([plan.measurements[0]?.force, doubts.map(({ line, path }) => [line, path])]).toEqual([12, [[36, 'measurements[0].force']]])
    expect(() => readPlanToTry(planWith('direction: flexion, force: 738, unit: N'), 'plan.yaml', content)).toThrow('ten times')
  })
})
