import type { Question } from '../question.ts'
import { answer, unusable, type LabelledOption, type QuestionKindReader } from './question-kind.ts'

type Of<Kind extends Question['kind']> = Extract<Question, { kind: Kind }>

/**
 * A calendar day: one of those on offer, by its button or its name, or any other as `2026-01-09`. A bare number is no place
 * in the list here, since it may be meant as a day of the month.
 */
export const date: QuestionKindReader<Of<'date'>> = {
  awaiting: 'nothing',
  read: (_question, written, _reading, { options }) => {
    const tidy = written.trim()
    const named = options.find((option) => namesOf(option).includes(fold(tidy)))
    if (named) return answer(named.value)
    return isDate(tidy) ? answer(tidy) : unusable('no-date')
  },
  press: (_question, value, { options }) => (options.some((option) => option.value === value) ? answer(value) : unusable('no-date')),
  buttons: (_question, { options }) => options.map(({ label, value }) => [{ label, value }]),
}

function namesOf({ label, saidAs = [] }: LabelledOption): readonly string[] {
  return [label, ...saidAs].map(fold)
}

function fold(text: string): string {
  return text.toLocaleLowerCase('en').replaceAll(/[^\p{L}\p{N}]+/gu, ' ').trim()
}

/** The 30th of February is none. */
function isDate(text: string): boolean {
  const ms = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00:00Z`) : Number.NaN
  return !Number.isNaN(ms) && new Date(ms).toISOString().startsWith(text)
}
