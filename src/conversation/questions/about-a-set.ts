import { controls } from '#src/domain/set-report.ts'
import type { Question } from '../question.ts'
import { answer, unusable, type PlainButton, type QuestionKindReader } from './question-kind.ts'

type Of<Kind extends Question['kind']> = Extract<Question, { kind: Kind }>

const mostPain = 10
const forgotten = 'forgotten'
/** The last button of the reserve row stands for "this many or more". */
export const mostReserveOnButton = 5

function numberButtons(from: number, to: number): PlainButton[] {
  return Array.from({ length: to - from + 1 }, (_, index) => ({ label: String(from + index), value: String(from + index) }))
}

/** Pain 0–10, the worst in neck, head or arm. */
export const pain: QuestionKindReader<Of<'pain'>> = {
  awaiting: 'pain',
  read: (question, _text, reading) => {
    if (typeof reading.value === 'number') return answer(reading.value)
    return question.mayBeForgotten === true && reading.command === 'skip' ? answer(null) : unusable('no-pain-number')
  },
  press: (_question, value) => answer(value === forgotten ? null : Number(value)),
  buttons: (question, { words }) => [
    numberButtons(0, 5),
    numberButtons(6, mostPain),
    ...(question.mayBeForgotten === true ? [[{ label: words.say('common.do-not-remember'), value: forgotten }]] : []),
  ],
}

/** Whether chin, shoulders or body moved to help. */
export const control: QuestionKindReader<Of<'control'>> = {
  awaiting: 'control',
  read: (_question, _text, reading) => (typeof reading.value === 'string' ? answer(reading.value) : unusable('no-control')),
  press: (_question, value) => answer(value),
  buttons: (_question, { words }) => [controls.map((value) => ({ label: words.say(`common.control.${value}`), value }))],
}

/** How many more, just as clean; a hold is a repetition. */
export const reserve: QuestionKindReader<Of<'reserve'>> = {
  awaiting: 'reserve',
  read: (_question, _text, reading) => (typeof reading.value === 'number' ? answer(reading.value) : unusable('no-reserve')),
  press: (_question, value) => answer(Number(value)),
  buttons: (_question, { words }) => [
    [
      ...numberButtons(0, mostReserveOnButton - 1),
      { label: words.say('common.reserve-or-more', { count: mostReserveOnButton }), value: String(mostReserveOnButton) },
    ],
  ],
}
