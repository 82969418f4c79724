import { weekdays } from '#src/domain/plan.ts'
import { readZone } from '#src/domain/zone.ts'
import type { Lexicon } from '#src/content/lexicon.ts'
import type { Question } from '../question.ts'
import { replaceEntry, tidyEntry } from './entry-words.ts'
import { answer, unusable, type QuestionKindReader } from './question-kind.ts'
import { readWeekdays } from './weekday-names.ts'

type Of<Kind extends Question['kind']> = Extract<Question, { kind: Kind }>

/** Which half of the day a clock of twelve hours means; null where the hour may be in either. */
const halves: Readonly<Record<'am' | 'pm' | 'morning' | 'night', (hour: number) => number | null>> = {
  am: (hour) => hour % 12,
  pm: (hour) => (hour % 12) + 12,
  morning: (hour) => (hour === 12 ? null : hour),
  night: (hour) => (hour === 12 || hour < 6 ? hour % 12 : hour + 12),
}
const halfNames = Object.keys(halves) as readonly (keyof typeof halves)[]

/** `18:00`, `18.00`, `1800`, `6 pm`, `at 18h`: the words are those of the language. */
export function readWallTime(written: string, lexicon: Lexicon): string | null {
  return readTidyTime(withoutHalves(written, lexicon), lexicon)
}

/** The text with "#pm" and the like for the words of the language. */
function withoutHalves(written: string, lexicon: Lexicon): string {
  return halfNames.reduce((text, half) => replaceEntry(text, `half-day-${half}`, `#${half}`, lexicon), tidyEntry(written))
}

function readTidyTime(text: string, lexicon: Lexicon): string | null {
  const plain = replaceEntry(replaceEntry(text, 'hour-word', ' ', lexicon), 'at-word', '@', lexicon).replaceAll(/\s+/gu, ' ')
  const match = /^ ?@? ?(\d{1,2})(?: ?[:. ]? ?(\d{2}))? ?(?:#([a-z]+))? ?$/u.exec(plain)
  if (!match) return null
  const hour = Number(match[1])
  const minute = Number(match[2] ?? 0)
  const half = halfNames.find((name) => name === match[3])
  if (half !== undefined && (hour < 1 || hour > 12)) return null
  const full = half === undefined ? hour : halves[half](hour)
  return full === null || full > 23 || minute > 59 ? null : `${String(full).padStart(2, '0')}:${String(minute).padStart(2, '0')}`
}

export const wallTime: QuestionKindReader<Of<'wall-time'>> = {
  awaiting: 'nothing',
  read: (_question, written, _reading, { lexicon }) => {
    const time = readWallTime(written, lexicon)
    return time === null ? unusable('no-time') : answer(time)
  },
  press: () => unusable('no-time'),
  buttons: () => [],
}

/** Two times, e.g. `21:00-08:00`. */
export const timeSpan: QuestionKindReader<Of<'time-span'>> = {
  awaiting: 'nothing',
  read: (_question, written, _reading, { lexicon }) => {
    const joined = replaceEntry(withoutHalves(written, lexicon), 'span-word', '-', lexicon)
    const parts = replaceEntry(joined, 'and-word', '-', lexicon).split('-')
    const [from, to, ...others] = parts.map((part) => readTidyTime(part, lexicon))
    const isUsable = from != null && to != null && others.length === 0 && from !== to
    return isUsable ? answer({ from, to }) : unusable('no-time-span')
  },
  press: () => unusable('no-time-span'),
  buttons: () => [],
}

/** Days of the week, or a span of them. */
export const weekdaysQuestion: QuestionKindReader<Of<'weekdays'>> = {
  awaiting: 'nothing',
  read: (_question, written, _reading, { lexicon }) => {
    const days = readWeekdays(written, lexicon)
    return days === null ? unusable('no-weekdays') : answer(days)
  },
  press: (_question, value) => answer(value === 'every' ? [...weekdays] : value.split('-')),
  buttons: (_question, { words }) => [
    [{ label: words.say('common.days.three'), value: 'mon-wed-fri' }],
    [{ label: words.say('common.days.five'), value: 'mon-tue-wed-thu-fri' }],
    [{ label: words.say('common.days.every'), value: 'every' }],
  ],
}

export const zone: QuestionKindReader<Of<'zone'>> = {
  awaiting: 'nothing',
  read: (_question, written) => {
    const read = readZone(written)
    return read.kind === 'zone' ? answer(read.zone) : unusable(`zone-${read.reason}`)
  },
  press: () => unusable('zone-empty'),
  buttons: () => [],
}
