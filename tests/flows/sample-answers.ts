// Answers that a question can be given, of every shape that its reader in `src/conversation/questions` makes.
import type { Answer, Option, Question, QuestionKind } from '#src/conversation/question.ts'
import { controls } from '#src/domain/set-report.ts'
import { weekdays } from '#src/domain/plan.ts'

type Of<Kind extends QuestionKind> = Extract<Question, { kind: Kind }>

const pains = numbersFrom(0, 10)
const valuesOf = (options: readonly Option[]): readonly string[] => options.map(({ value }) => value)

/** The options of the document that mean something of their own; all others lead the same way. */
const openValues: Readonly<Record<string, readonly string[]>> = {
  'screen-groups': ['none'],
  'sign-groups': ['none', 'something-else'],
  'signs-of-group': ['none'],
  'directions-to-measure': ['done'],
}

/** A new kind of question without answers does not compile. */
const samples: { readonly [Kind in QuestionKind]: (question: Of<Kind>) => readonly Answer[] } = {
  pain: ({ mayBeForgotten }) => [...pains, ...(mayBeForgotten === true ? [null] : [])],
  control: () => controls,
  reserve: () => numbersFrom(0, 6),
  'yes-no': () => [true, false],
  choice: ({ options }) => valuesOf(options),
  'choice-or-pain': ({ options }) => [...valuesOf(options), ...pains],
  'open-choice': ({ from }) => [...(openValues[from] ?? []), 'any other'],
  several: () => [[], ['one'], ['one', 'another']],
  text: ({ mayBeEmpty }) => ['some words', ...(mayBeEmpty === true ? [''] : [])],
  number: ({ least, most, mayBeNone }) => [least, most, ...(mayBeNone === true ? [null] : [])],
  numbers: ({ least, most }) => [[], [least], [least, most]],
  'wall-time': () => ['00:00', '18:30', '23:59'],
  'time-span': () => [{ from: '21:00', to: '08:00' }],
  weekdays: () => [['mon'], weekdays],
  date: () => ['2026-01-09'],
  'known-sign': () => [{ words: 'tingling', side: 'left', area: 'forearm', worst: 4 }],
  zone: () => ['Europe/Dublin', 'UTC'],
  'blood-pressure': () => [null, { systolic: 120, diastolic: 80 }],
  band: () => ['none', { id: 'light', points: [{ stretchCm: 10, forceN: 8 }, { stretchCm: 30, forceN: 20 }] }],
  'measured-force': ({ mayBeNone }) => [{ trials: [112, 118], unit: 'N', leverCm: null }, ...(mayBeNone === true ? [null] : [])],
  phone: () => ['112'],
  scale: ({ least, most, mayBeSkipped }) => [...numbersFrom(least, most), ...(mayBeSkipped === true ? [null] : [])],
  activity: () => ['', 'look over my shoulder'],
  'item-scores': () => [[2, 1, 3, 0, 2, null, 1, 2, 4, 1]],
}

export function sampleAnswers(question: Question): readonly Answer[] {
  return (samples[question.kind] as (question: Question) => readonly Answer[])(question)
}

function numbersFrom(least: number, most: number): readonly number[] {
  return Array.from({ length: most - least + 1 }, (_, index) => least + index)
}
