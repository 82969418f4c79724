import type { ForceUnit } from '#src/domain/units.ts'
import type { EntryList, Lexicon } from '#src/content/lexicon.ts'
import type { Question } from '../question.ts'
import { replaceEntry, tidyEntry } from './entry-words.ts'
import { answer, unusable, type QuestionKindReader } from './question-kind.ts'

/** The trials of one maximal test, as typed; whether they are plausible is for the rules to say. */
export interface MeasuredForce {
  readonly trials: readonly number[]
  readonly unit: ForceUnit
  readonly leverCm: number | null
}

/** Signs of units are the same in every language; their names stand in the lexicon. */
const unitsAs: Readonly<Record<string, ForceUnit>> = { n: 'N', kg: 'kgf', kgf: 'kgf', kp: 'kgf', lb: 'lbf', lbs: 'lbf', lbf: 'lbf' }
/** More trials than these are no test of one maximum. */
const mostTrials = 6
const leverLimits = { least: 1, most: 40 }

/** `112, 118 N`, `12 kgf`, `26 lb`, and with the lever arm `112, 118 N at 14 cm`. */
export const measuredForce: QuestionKindReader<Extract<Question, { kind: 'measured-force' }>> = {
  awaiting: 'nothing',
  read: (question, written, reading, { lexicon }) => {
    if (question.mayBeNone === true && (reading.command === 'none' || reading.command === 'skip' || written.trim() === '-')) return answer(null)
    // A moment already holds a lever arm; taken for a force it would be wrong by that much.
    const plain = withSigns(written, lexicon)
    if (/\d ?(?:n ?[·*.]? ?m|ft[ ·*-]?lbs?)\b/u.test(plain)) return unusable('force-is-moment')
    const match = /^([-+\d.,; ]*\d) ?([a-z]+)(?: ?[,;]? ?([\d.,]+) ?cm)?$/u.exec(plain)
    const unit = unitsAs[match?.[2] ?? '']
    if (!match?.[1] || unit === undefined) return unusable(/\d/.test(written) && unit === undefined ? 'no-force-unit' : 'no-force')
    const trials = readTrials(match[1])
    const leverCm = match[3] === undefined ? null : Number(match[3].replace(',', '.'))
    if (trials.length === 0 || trials.length > mostTrials || Number.isNaN(leverCm)) return unusable('no-force')
    if (leverCm !== null && (leverCm < leverLimits.least || leverCm > leverLimits.most)) return unusable('lever-out-of-range', leverLimits)
    return answer({ trials, unit, leverCm })
  },
  press: () => answer(null),
  buttons: (question, { words }) => (question.mayBeNone === true ? [[{ label: words.say('common.not-measured'), value: 'none' }]] : []),
}

/** With the signs of units for their names, and nothing for the words before the lever arm. */
function withSigns(written: string, lexicon: Lexicon): string {
  const signs: readonly (readonly [EntryList, string])[] = [
    ['newton-word', 'n'], ['kilogram-word', 'kg'], ['pound-word', 'lb'], ['centimetre-word', 'cm'], ['lever-word', ' '], ['at-word', ' '],
  ]
  const plain = signs.reduce((text, [list, sign]) => replaceEntry(text, list, sign, lexicon), tidyEntry(written))
  return plain.replaceAll(/ +/gu, ' ').trim()
}

/** A comma with a digit or two behind it and nothing else is a decimal sign; `112,118` are two trials. */
function readTrials(written: string): readonly number[] {
  const parts = written
    .split(/[;\s]+|,\s+/)
    .flatMap((part) => (/^[-+]?\d+,\d{1,2}$/.test(part) ? [part.replace(',', '.')] : part.split(',')))
    .filter((part) => part !== '')
  // Minus nothing is nothing, and could not be stored as it is.
  const trials = parts.map((part) => Number(part) + 0)
  return trials.every(Number.isFinite) ? trials : []
}
