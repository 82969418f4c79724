// The keys of a plan that working loads rest on. The bounds are our choice.
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { planSchema } from '#src/content/plan-schema.ts'
import { readShaped } from '#src/content/read-shaped.ts'
import type { Plan } from '#src/domain/plan.ts'

const shipped = readFileSync('content/plans/extension.yaml', 'utf8')

/** The plan to try with one line written otherwise. */
function written(line: string, instead: string): string {
  if (!shipped.includes(line)) throw new Error(`no line ${line}`)
  return shipped.replace(line, instead)
}

function read(text: string): Plan {
  const reading = readShaped(text, 'plan.yaml', planSchema)
  if (reading.kind === 'unreadable') throw new Error(reading.problems.map(({ path, message }) => `${path} ${message}`).join('; '))
  return reading.value
}

function problemsOf(text: string): readonly string[] {
  const reading = readShaped(text, 'plan.yaml', planSchema)
  return reading.kind === 'read' ? [] : reading.problems.map(({ path, message, mend }) => `${path} ${message}. ${mend}`)
}

const measurement = 'force: 120, unit: N'
const ladder = 'max_rung: 5,'
const harness = 'harness_kg: 0.4'
const nearPoint = 'points: [{ stretch_cm: 10, force_n: 8 }, { stretch_cm: 60, force_n: 24 }]'

describe('a plan', () => {
  it('may state trials, collars, where the harness is left, and assumptions', () => {
    const text = written(measurement, 'force: 120, trials: [112, 120], unit: N')
      .replace(ladder, `${ladder} target_kg: 4.5,`)
      .replace(harness, `${harness}\n  collars_kg: 0.1`)
      .concat('assumptions: { body_kg: 58, sex: female, harness_lever_cm: 18 }\n')
    const plan = read(text)
    expect([plan.measurements[0]?.trials, plan.ladders[0]?.targetKg, plan.equipment.collarsKg, plan.assumptions]).toEqual([
      [112, 120],
      4.5,
      0.1,
      { bodyKg: 58, sex: 'female', harnessLeverCm: 18 },
    ])
  })

  it('without them says nothing of them', () => {
    const plan = read(shipped)
    expect(['trials' in (plan.measurements[0] ?? {}), 'targetKg' in (plan.ladders[0] ?? {}), 'collarsKg' in plan.equipment, plan.assumptions]).toEqual([
      false,
      false,
      false,
      undefined,
    ])
  })

  it('whose force is not its best trial is refused with the best', () => {
    expect(problemsOf(written(measurement, 'force: 120, trials: [112, 125], unit: N'))).toEqual([
      'measurements[0].force is not the best trial. Write 125, or correct the trials.',
    ])
  })

  it.each([
    [0.1, true],
    [0.09, false],
    [15, true],
    [15.1, false],
  ])('with %d kg to leave the harness at is read: %s', (targetKg, isRead) => {
    expect(problemsOf(written(ladder, `${ladder} target_kg: ${targetKg},`)).length === 0).toBe(isRead)
  })

  it.each([
    [10.5, 11, true],
    [10.5, 10.9, false],
  ])('with a band measured at %d and %d cm is read: %s', (near, far, isRead) => {
    const text = written(nearPoint, `points: [{ stretch_cm: ${near}, force_n: 8 }, { stretch_cm: ${far}, force_n: 24 }]`)
    expect(problemsOf(text).length === 0).toBe(isRead)
  })
})
