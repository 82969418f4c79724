import { clausesOf, isWhole, type Clause } from './clauses.ts'
import type { Found } from './find-phrases.ts'
import type { MarkedText } from './marked-text.ts'

/** Yes or no by how an answer begins; a correction takes back what stood before; null where both are said, or neither. */
export function readYesNo(text: MarkedText): boolean | null {
  const { found } = text
  let said: boolean[] = []
  for (const clause of clausesOf(found)) {
    const lead = leadOf(clause, text, said.length === 0)
    if (lead.isCorrection) said = []
    // Later clauses explain ("yes, no pain at all"); only one that is nothing but an answer counts again.
    if (said.length === 0 || lead.isAll) said.push(...lead.said)
  }
  const [first] = said
  return first !== undefined && said.every((it) => it === first) ? first : null
}

interface Lead {
  readonly said: readonly boolean[]
  readonly isCorrection: boolean
  readonly isAll: boolean
}

/** The yeses and noes at the start of a clause; "yes no wait no" holds several and a correction. */
function leadOf(clause: Clause, text: MarkedText, isOpening: boolean): Lead {
  const { found } = text
  let [index, said, isCorrection]: [number, boolean[], boolean] = [clause.start, [], false]
  while (index < clause.end) {
    const correction = found.startingAt('correction', index)
    const answer = answerAt(index, text, { isFirst: said.length === 0, isOpening })
    const filler = found.startingAt('filler', index)
    if (correction !== undefined && correction.end - index >= (answer?.length ?? 0)) {
      ;[index, said, isCorrection] = [correction.end, [], true]
    } else if (answer !== null) {
      said.push(answer.isYes)
      index += answer.length
    } else if (filler !== undefined) index = filler.end
    else break
  }
  return { said, isCorrection, isAll: index >= clause.end }
}

/** "OK" and "I am" agree where they come first; after a no they only describe: "no I am fine", "no, all good". */
function answerAt(
  index: number,
  text: MarkedText,
  { isFirst, isOpening }: { isFirst: boolean; isOpening: boolean },
): { isYes: boolean; length: number } | null {
  const { found } = text
  if (text.isIdiom(index)) return null
  const yes = found.startingAt('says-yes', index) ?? (isFirst && isOpening ? found.startingAt('agrees', index) : undefined)
  const no = found.startingAt('says-no', index)
  const length = Math.max(yes?.end ?? 0, no?.end ?? 0) - index
  const doubt = found.startingAt('what-if', index)
  if (length <= 0 || (!isFirst && length > 1) || (doubt !== undefined && doubt.end - index >= length)) return null
  return { isYes: (yes?.end ?? 0) > (no?.end ?? 0), length }
}

/** Whether an earlier answer is taken back: in words, or by "no" before another number. */
export function isCorrection(found: Found, awaitsNumber: boolean, hasValue: boolean): boolean {
  if (found.all('correction').length > 0) return true
  if (!awaitsNumber || !hasValue) return false
  const [first, second] = clausesOf(found)
  const no = found.all('says-no')[0]
  // "None, 0" says the same thing twice.
  if (no === undefined || found.startingAt('no-pain', no.start) !== undefined) return false
  return first !== undefined && second !== undefined && isWhole(no, first, found)
}
