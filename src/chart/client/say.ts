// Doses, reasons and decisions in words, for the client or for the therapist.
import type { Words } from '#src/content/content.ts'
import type { Decision, Reason } from '#src/domain/decision.ts'
import type { Side } from '#src/domain/direction.ts'
import type { Dose, Load } from '#src/domain/dose.ts'
import type { ExerciseId, Instant } from '#src/domain/identifier.ts'
import { describeInstant } from '#src/schedule/describe-instant.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { planOf } from './plan-facts.ts'

export interface Saying {
  readonly words: Words
  readonly text: (key: string, values?: Readonly<Record<string, string | number>>) => string
  /** Of one side, or of both where the exercise has two and none is given. */
  readonly dose: (exercise: ExerciseId, dose: Dose, side: Side | null) => string
  readonly reason: (reason: Reason) => string
  readonly decision: (decision: Decision) => string
  /** The client's own time. */
  readonly time: (at: Instant) => string
}

/** The therapist's side is written in the clinic's language, which is the first of the content. */
export function say(draft: Draft<Chart>, reader: 'client' | 'therapist'): Saying {
  const language = draft.document.plan?.client.language ?? ''
  const words = draft.words(reader === 'client' ? language : '')
  return {
    words,
    text: (key, values) => words.say(key, values),
    dose: (exercise, dose, side) => describeDose(words, exercise, dose, side),
    reason: (reason) => words.say(`reasons.${reader}.${reason.rule}`, reason.numbers),
    decision: (decision) => words.say(`decisions.${reader}.${decision.kind.replace(' ', '-')}`),
    time: (at) => describeInstant(at, planOf(draft.document).zone, words.language),
  }
}

function describeDose(words: Words, exercise: ExerciseId, dose: Dose, side: Side | null): string {
  const { sets, reps, holdSeconds } = dose
  const work =
    holdSeconds === null
      ? words.say('dose.repetitions', { sets, reps })
      : words.say('dose.holds', { sets, reps, seconds: holdSeconds })
  const load = describeLoad(words, dose.load)
  const sides = side === null && words.hasSides(exercise) ? 'both' : 'one'
  return words.say('dose.whole', { exercise: words.exerciseShort(exercise, side), work, sides, load: load === '' ? 'none' : 'some', loadText: load })
}

/** Empty where there is none. */
export function describeLoad(words: Words, load: Load): string {
  return loadWords[load.kind](words, load as never)
}

const loadWords: { [Kind in Load['kind']]: (words: Words, load: Extract<Load, { kind: Kind }>) => string } = {
  none: () => '',
  push: (words, load) => words.say('dose.push', { effort: load.effort }),
  mass: (words, load) =>
    load.plates.length === 0
      ? words.say('dose.empty-harness', { kilograms: load.kilograms })
      : words.say('dose.plates', { kilograms: load.kilograms, plates: load.plates.join(' + ') }),
  force: (words, load) => words.say('dose.band', { newtons: load.newtons, band: load.band, stretch: load.stretchCm }),
}
