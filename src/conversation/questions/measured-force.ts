import type { ForceUnit } from '#src/domain/units.ts'
import type { Question } from '../question.ts'
import { answer, unusable, type QuestionKindReader } from './question-kind.ts'

/** The trials of one maximal test, as typed; whether they are plausible is for the rules to say. */
export interface MeasuredForce {
  readonly trials: readonly number[]
  readonly unit: ForceUnit
  readonly leverCm: number | null
}

const unitsAs: readonly (readonly [RegExp, ForceUnit])[] = [
  [/^(n|newtons?)$/iu, 'N'],
  [/^(kgf?|kp|kilos?|kilograms?)$/iu, 'kgf'],
  [/^(lbs?|lbf|pounds?)$/iu, 'lbf'],
]
/** More trials than these are no test of one maximum. */
const mostTrials = 6
const leverLimits = { least: 1, most: 40 }

/** `112, 118 N`, `12 kgf`, `26 lb`, and with the lever arm `112, 118 N at 14 cm`. */
export const measuredForce: QuestionKindReader<Extract<Question, { kind: 'measured-force' }>> = {
  awaiting: 'nothing',
  read: (question, written, reading) => {
    if (question.mayBeNone === true && (reading.command === 'none' || reading.command === 'skip' || written.trim() === '-')) return answer(null)
    // A moment already holds a lever arm; taken for a force it would be wrong by that much.
    if (/\d\s*(n\s*[·*.]?\s*m|ft\W*lbs?)\b/iu.test(written)) return unusable('force-is-moment')
    const match = /^([-+\d.,;\s]*\d)\s*([a-z]+)\b\s*(?:[,;]?\s*(?:at|lever|arm|with|@|\s)*(\d+(?:[.,]\d+)?)\s*cm)?\s*$/iu.exec(written.trim())
    const unit = unitsAs.find(([name]) => name.test(match?.[2] ?? ''))?.[1]
    if (!match?.[1] || unit === undefined) return unusable(/\d/.test(written) && unit === undefined ? 'no-force-unit' : 'no-force')
    const trials = readTrials(match[1])
    const leverCm = match[3] === undefined ? null : Number(match[3].replace(',', '.'))
    if (trials.length === 0 || trials.length > mostTrials) return unusable('no-force')
    if (leverCm !== null && (leverCm < leverLimits.least || leverCm > leverLimits.most)) return unusable('lever-out-of-range', leverLimits)
    return answer({ trials, unit, leverCm })
  },
  press: () => answer(null),
  buttons: (question, { words }) => (question.mayBeNone === true ? [[{ label: words.say('common.not-measured'), value: 'none' }]] : []),
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
