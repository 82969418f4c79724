// What seems wrong with a maximal test as it was typed. Typed once more the same way, what can be right is taken.
import type { Answer } from '#src/conversation/question.ts'
import type { MeasuredForce } from '#src/conversation/questions/measured-force.ts'
import { ladderOf, type Direction } from '#src/domain/direction.ts'
import { readMeasurement, type MeasurementReading } from '#src/rules/read-measurement.ts'

type Doubt = Extract<MeasurementReading, { kind: 'ask-again' }>

/** Null where the answer can be used, or says that nothing was measured. */
export function doubtOf(direction: Direction, typed: Answer | undefined, doubted: Answer | undefined): Doubt | null {
  if (typed == null) return null
  const isConfirmed = JSON.stringify(typed) === JSON.stringify(doubted)
  const reading = readMeasurement({ ladder: ladderOf(direction), ...(typed as unknown as MeasuredForce), isConfirmed })
  return reading.kind === 'ask-again' ? reading : null
}
