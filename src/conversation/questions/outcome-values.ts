import { isItemScore, itemCount, scoreDisability } from '#src/rules/disability-score.ts'
import type { Lexicon } from '#src/content/lexicon.ts'
import type { Question } from '../question.ts'
import { replaceEntry, tidyEntry } from './entry-words.ts'
import { answer, unusable, type PlainButton, type QuestionKindReader } from './question-kind.ts'

type Of<Kind extends Question['kind']> = Extract<Question, { kind: Kind }>

const skipped = 'skip'
const noMore = 'no-more'
/** More than this in a row of buttons is hard to press on a phone. */
const longestRow = 6
/** It is said again in every question about it. */
const longestActivity = 80

/** `7`, `7/10` or `7 out of 10`; not between two, since what is the worse of them depends on what is asked. */
export const scale: QuestionKindReader<Of<'scale'>> = {
  awaiting: 'nothing',
  read: ({ least, most, mayBeSkipped }, written, { command }, { lexicon }) => {
    if (mayBeSkipped === true && (command === 'skip' || written.trim() === '-')) return answer(null)
    const [value, ...others] = numbersIn(written, most, lexicon)
    const isUsable = value !== undefined && others.length === 0 && Number.isInteger(value) && value >= least && value <= most
    // Minus nothing is nothing, and could not be stored as it is.
    return isUsable ? answer(value + 0) : unusable('no-scale-number', { least, most })
  },
  press: (_question, value) => answer(value === skipped ? null : Number(value)),
  buttons: ({ least, most, mayBeSkipped }, { words }) => [
    ...rowsOf(Array.from({ length: most - least + 1 }, (_, index) => String(least + index))),
    ...(mayBeSkipped === true ? [[{ label: words.say('common.skip'), value: skipped }]] : []),
  ],
}

/** "Out of ten" names the scale and is no second value; a minus stays, so that it is not read as its opposite. */
function numbersIn(written: string, most: number, lexicon: Lexicon): readonly number[] {
  const plain = replaceEntry(tidyEntry(written), 'out-of-word', '/', lexicon)
  const whole = new RegExp(String.raw`/ ?${most}(?!\d)`, 'gu')
  return [...plain.replace(whole, ' ').matchAll(/-?\d+(?:[.,]\d+)?/gu)].map(([number]) => Number(number.replace(',', '.')))
}

function rowsOf(values: readonly string[]): readonly (readonly PlainButton[])[] {
  const buttons = values.map((value) => ({ label: value, value }))
  return Array.from({ length: Math.ceil(buttons.length / longestRow) }, (_, row) => buttons.slice(row * longestRow, (row + 1) * longestRow))
}

export const activity: QuestionKindReader<Of<'activity'>> = {
  awaiting: 'yesno',
  read: (_question, written, { command, value }) => {
    const tidy = written.trim().replaceAll(/\s+/gu, ' ')
    // "No longer turning in bed" is an activity, "no" or "no more" is none.
    const isShort = tidy.split(' ').length <= 2
    if (tidy === '-' || command === 'none' || command === 'skip' || command === 'done' || (isShort && value === false)) return answer('')
    if (!/\p{L}{2}/u.test(tidy) || (isShort && value === true)) return unusable('no-activity')
    return tidy.length > longestActivity ? unusable('too-long', { most: longestActivity }) : answer(tidy)
  },
  press: () => answer(''),
  buttons: (_question, { words }) => [[{ label: words.say('common.no-more'), value: noMore }]],
}

/** `3 2 0 - 1 4 2 2 3 1`, or without blanks; "-" where an item was not answered. */
export const itemScores: QuestionKindReader<Of<'item-scores'>> = {
  awaiting: 'nothing',
  read: (_question, written) => {
    const tidy = written.trim().replaceAll(/[–—−]/gu, '-')
    const parts = /^[\d-]{10}$/u.test(tidy) ? [...tidy] : tidy.split(/[\s,;]+/u).filter((part) => part !== '')
    if (parts.length !== itemCount) return unusable('not-ten-items', { count: parts.length })
    const scores = parts.map((part) => (part === '-' ? null : /^\d+$/u.test(part) ? Number(part) : Number.NaN))
    const wrong = scores.findIndex((score) => !isItemScore(score))
    if (wrong >= 0) return unusable('no-item-score', { place: wrong + 1 })
    const score = scoreDisability(scores)
    return score.kind === 'too-many-gaps' ? unusable('too-many-gaps', { answered: score.answered }) : answer(scores)
  },
  press: () => unusable('not-ten-items', { count: 0 }),
  buttons: () => [],
}
