import { ladderOf } from '#src/domain/direction.ts'
import type { Measurement, Plan } from '#src/domain/plan.ts'
import { readMeasurement, type MeasurementDoubt, type MeasurementReading } from '#src/rules/read-measurement.ts'
import type { Problem } from './problem.ts'
import type { YamlSource } from './yaml-source.ts'

export interface MeasurementProblems {
  /** No measurement can have given these. */
  readonly refused: readonly Problem[]
  /** These may be right: asked again in conversation, confirmed by a word in a file. */
  readonly doubted: readonly Problem[]
}

/** What seems wrong with the maximal forces of a plan. The numbers are a client's and are not quoted. */
export function checkMeasurements({ measurements }: Plan, source: YamlSource): MeasurementProblems {
  const doubts = measurements.flatMap((measurement, index) => {
    const reading = readingOf(measurement)
    return reading.kind === 'ask-again' ? [{ index, ...reading }] : []
  })
  const problemOf = (doubt: (typeof doubts)[number], mend: string): Problem =>
    source.problem(['measurements', doubt.index, doubt.reason === 'trials-apart' ? 'trials' : 'force'], messages[doubt.reason](doubt), mend)
  return {
    refused: doubts.filter((doubt) => !doubt.mayBeConfirmed).map((doubt) => problemOf(doubt, 'Check the number and its unit.')),
    doubted: doubts
      .filter((doubt) => doubt.mayBeConfirmed)
      .map((doubt) => problemOf(doubt, 'Correct it, or write "confirmed: true" beside it if it was measured so.')),
  }
}

function readingOf({ direction, force, trials, unit, leverCm, isConfirmed = false }: Measurement): MeasurementReading {
  return readMeasurement({ ladder: ladderOf(direction), trials: trials ?? [force], unit, leverCm, isConfirmed })
}

type Doubt = Extract<MeasurementReading, { kind: 'ask-again' }>

const messages: Record<MeasurementDoubt, (doubt: Doubt) => string> = {
  'not-positive': () => 'is no force',
  'unit-seems-wrong': ({ suggestion }) => `is unusual for this direction; as so many ${suggestion?.unit} it would be usual`,
  'far-above': () => 'is ten times what is usual for this direction, or more',
  'far-below': () => 'is far below what is usual for this direction',
  'trials-apart': () => 'lie far apart',
}
