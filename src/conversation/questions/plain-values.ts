import type { Lexicon } from '#src/content/lexicon.ts'
import type { Question } from '../question.ts'
import { replaceEntry, tidyEntry } from './entry-words.ts'
import { answer, unusable, type QuestionKindReader } from './question-kind.ts'

type Of<Kind extends Question['kind']> = Extract<Question, { kind: Kind }>

/** Names, reasons: long enough for a sentence, short enough for an alert. */
const longestText = 500

export const text: QuestionKindReader<Of<'text'>> = {
  awaiting: 'nothing',
  read: (question, written, reading) => {
    const tidy = written.trim()
    if (question.mayBeEmpty === true && (tidy === '-' || reading.command === 'none' || reading.command === 'skip')) return answer('')
    if (tidy === '') return unusable('empty')
    return tidy.length > longestText ? unusable('too-long', { most: longestText }) : answer(tidy)
  },
  press: () => answer(''),
  buttons: (question, { words }) => (question.mayBeEmpty === true ? [[{ label: words.say('common.leave-empty'), value: 'empty' }]] : []),
}

/** A number to call: digits with the usual signs, kept as written. */
export const phone: QuestionKindReader<Of<'phone'>> = {
  awaiting: 'nothing',
  read: (_question, written) => {
    const tidy = written.trim()
    return /^\+?[\d\s()/.-]{2,24}$/.test(tidy) && /\d{2}/.test(tidy.replaceAll(/\D/g, '')) ? answer(tidy) : unusable('no-phone-number')
  },
  press: () => unusable('no-phone-number'),
  buttons: () => [],
}

export const number: QuestionKindReader<Of<'number'>> = {
  awaiting: 'nothing',
  read: (question, written, reading, { lexicon }) => {
    if (question.mayBeNone === true && (reading.command === 'none' || reading.command === 'skip' || written.trim() === '-')) return answer(null)
    const [value, ...others] = readNumbers(written, lexicon)
    if (value === undefined || others.length > 0) return unusable('no-number')
    const isInside = value >= question.least && value <= question.most
    if (!isInside) return unusable('out-of-range', { least: question.least, most: question.most })
    return question.isWhole === true && !Number.isInteger(value) ? unusable('not-whole') : answer(value)
  },
  press: () => answer(null),
  buttons: (question, { words }) => (question.mayBeNone === true ? [[{ label: words.say('common.none'), value: 'none' }]] : []),
}

/** Several numbers, e.g. the plates owned: `0.25 0.5 1`, `2 x 1.25`. */
export const numbers: QuestionKindReader<Of<'numbers'>> = {
  awaiting: 'nothing',
  read: (question, written, reading, { lexicon }) => {
    if (reading.command === 'none' || written.trim() === '-') return answer([])
    const values = readNumbers(written, lexicon)
    if (values.length === 0) return unusable('no-number')
    const isInside = values.every((value) => value >= question.least && value <= question.most)
    return isInside ? answer(values) : unusable('out-of-range', { least: question.least, most: question.most })
  },
  press: () => answer([]),
  buttons: (_question, { words }) => [[{ label: words.say('common.none'), value: 'none' }]],
}

/** `2 x 1.25` is two of them; a comma is a decimal sign unless points are used or it stands several times. */
export function readNumbers(written: string, lexicon: Lexicon): number[] {
  const tidy = replaceEntry(tidyEntry(written), 'times-word', '*', lexicon)
  const hasPoints = tidy.includes('.')
  const parts = tidy
    .replaceAll(/(?<=\d) ?[x×*] ?(?=\d)/gu, 'x')
    .split(/[;\s]+|,\s+/)
    .flatMap((part) => (hasPoints || (part.match(/,/g) ?? []).length > 1 ? part.split(',') : [part.replace(',', '.')]))
    .map((part) => part.replace(/(kg|cm|n|lb)$/iu, ''))
  const values = parts.flatMap((part) => {
    const match = /^(?:(\d{1,2})x)?(\d+(?:\.\d+)?)$/.exec(part)
    return match ? Array.from({ length: Number(match[1] ?? 1) }, () => Number(match[2])) : []
  })
  return values
}
