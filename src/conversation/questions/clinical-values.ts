import type { EntryList, Lexicon } from '#src/content/lexicon.ts'
import type { Question } from '../question.ts'
import { noneOption } from './choices.ts'
import { replaceEntry, tidyEntry } from './entry-words.ts'
import { readNumbers } from './plain-values.ts'
import { answer, unusable, type QuestionKindReader } from './question-kind.ts'

type Of<Kind extends Question['kind']> = Extract<Question, { kind: Kind }>

/** What a living person can have; outside it a figure has slipped. */
const systolicLimits = { least: 60, most: 280 }
const diastolicLimits = { least: 30, most: 180 }

/** `120/80`, or not known. */
export const bloodPressure: QuestionKindReader<Of<'blood-pressure'>> = {
  awaiting: 'nothing',
  read: (_question, written, reading, { lexicon }) => {
    if (reading.command === 'none' || reading.command === 'skip' || written.trim() === '-') return answer(null)
    const match = /^\D*(\d{2,3})(?: ?[/,] ?| )(\d{2,3})\D*$/u.exec(replaceEntry(tidyEntry(written), 'over-word', '/', lexicon))
    if (!match) return unusable('no-blood-pressure')
    const systolic = Number(match[1])
    const diastolic = Number(match[2])
    const isPlausible =
      systolic >= systolicLimits.least &&
      systolic <= systolicLimits.most &&
      diastolic >= diastolicLimits.least &&
      diastolic <= diastolicLimits.most &&
      systolic > diastolic
    return isPlausible ? answer({ systolic, diastolic }) : unusable('no-blood-pressure')
  },
  press: () => answer(null),
  buttons: (_question, { words }) => [[{ label: words.say('common.not-known'), value: 'unknown' }]],
}

/** A band measured at two stretches: `light: 10 cm 8 N, 30 cm 20 N`. */
export const band: QuestionKindReader<Of<'band'>> = {
  awaiting: 'nothing',
  read: (_question, written, reading, { lexicon }) => {
    if (reading.command === 'none' || written.trim() === '-') return answer(noneOption)
    const match = /^([\p{L}\p{N}][\p{L}\p{N} -]{0,30}) ?:(.+)$/u.exec(written.trim().replaceAll(/\s+/gu, ' '))
    if (!match?.[1] || !match[2]) return unusable('no-band')
    const [nearCm, nearN, farCm, farN, ...others] = readNumbers(figuresOf(match[2], lexicon), lexicon)
    if (nearCm === undefined || nearN === undefined || farCm === undefined || farN === undefined || others.length > 0) return unusable('no-band')
    const isRising = farCm > nearCm && farN > nearN && nearN >= 0.5 && farN <= 200 && nearCm >= 0
    if (!isRising) return unusable('band-not-rising')
    const points = [
      { stretchCm: nearCm, forceN: nearN },
      { stretchCm: farCm, forceN: farN },
    ]
    return answer({ id: match[1].trim().toLowerCase().replaceAll(/[^\p{L}\p{N}]+/gu, '-'), points })
  },
  press: () => answer(noneOption),
  buttons: (_question, { words }) => [[{ label: words.say('common.no-band'), value: noneOption }]],
}

/** Without the words between the figures. */
function figuresOf(written: string, lexicon: Lexicon): string {
  const said: readonly EntryList[] = ['newton-word', 'centimetre-word', 'at-word']
  return said.reduce((text, list) => replaceEntry(text, list, ' ', lexicon), tidyEntry(written)).replaceAll(/(?<!\p{L})(?:cm|n)(?!\p{L})|[=/:]/gu, ' ')
}
