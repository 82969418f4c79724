import type { KnownSign } from '#src/domain/plan.ts'
import type { Words } from '#src/content/content.ts'
import type { Question } from '../question.ts'
import { answer, unusable, type QuestionKindReader } from './question-kind.ts'

/** A long-standing sign as typed; which sign it is of is known from the question. */
export type DescribedSign = Omit<KnownSign, 'sign'>

const sides = ['left', 'right', 'both', 'none'] as const
/** As long as a sentence of a plan file may be. */
const longest = 400
const mostPain = 10

/**
 * `tingling, left, forearm and thumb, 4`: in words, side, area, worst level 0 to 10. Area and words may hold commas of their
 * own, since the side stands between them.
 */
export const knownSign: QuestionKindReader<Extract<Question, { kind: 'known-sign' }>> = {
  awaiting: 'nothing',
  read: (_question, written, _reading, { words }) => {
    const parts = written.split(/[,;\n]/u).map((part) => part.trim()).filter((part) => part !== '')
    const place = parts.findIndex((part, index) => index > 0 && sideOf(part, words) !== null)
    const worst = parts.at(-1) ?? ''
    const [inWords, area] = [parts.slice(0, place).join(', '), parts.slice(place + 1, -1).join(', ')]
    if (place < 0 || inWords === '' || area === '' || !/^\d{1,2}(\s*\/\s*10)?$/.test(worst)) return unusable('no-known-sign')
    const level = Number.parseInt(worst, 10)
    if (level > mostPain) return unusable('out-of-range', { least: 0, most: mostPain })
    if (written.length > longest) return unusable('too-long', { most: longest })
    const side = sideOf(parts[place] ?? '', words)
    const described: DescribedSign = { words: inWords, side: side === 'none' ? null : side, area, worst: level }
    return answer({ ...described })
  },
  press: () => unusable('no-known-sign'),
  buttons: () => [],
}

function sideOf(part: string, words: Words): (typeof sides)[number] | null {
  const said = part.toLocaleLowerCase(words.language)
  return sides.find((side) => words.say(`enrolment.known-sign.say-${side}`).split('|').includes(said)) ?? null
}
