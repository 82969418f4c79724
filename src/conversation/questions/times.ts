import { weekdays, type Weekday } from '#src/domain/plan.ts'
import { readZone } from '#src/domain/zone.ts'
import type { Question } from '../question.ts'
import { answer, unusable, type QuestionKindReader } from './question-kind.ts'

type Of<Kind extends Question['kind']> = Extract<Question, { kind: Kind }>

/** `18:00`, `18.00`, `1800`, `6 pm`, `18h`. */
export function readWallTime(written: string): string | null {
  const match = /^\s*(\d{1,2})(?:[:.h]?(\d{2}))?\s*h?\s*(am|pm|a\.m\.|p\.m\.)?\s*$/iu.exec(written)
  if (!match) return null
  const half = match[3]?.toLowerCase().charAt(0)
  const hour = Number(match[1])
  const minute = Number(match[2] ?? 0)
  if (half !== undefined && (hour < 1 || hour > 12)) return null
  const full = half === undefined ? hour : (hour % 12) + (half === 'p' ? 12 : 0)
  return full > 23 || minute > 59 ? null : `${String(full).padStart(2, '0')}:${String(minute).padStart(2, '0')}`
}

export const wallTime: QuestionKindReader<Of<'wall-time'>> = {
  awaiting: 'nothing',
  read: (_question, written) => {
    const time = readWallTime(written)
    return time === null ? unusable('no-time') : answer(time)
  },
  press: () => unusable('no-time'),
  buttons: () => [],
}

/** Two times, e.g. `21:00-08:00`. */
export const timeSpan: QuestionKindReader<Of<'time-span'>> = {
  awaiting: 'nothing',
  read: (_question, written) => {
    const [from, to, ...others] = written.split(/\s*(?:-|–|—|\bto\b|\buntil\b)\s*/u).map(readWallTime)
    const isUsable = from != null && to != null && others.length === 0 && from !== to
    return isUsable ? answer({ from, to }) : unusable('no-time-span')
  },
  press: () => unusable('no-time-span'),
  buttons: () => [],
}

/** Days of the week in English short or long form, or a span of them. */
export const weekdaysQuestion: QuestionKindReader<Of<'weekdays'>> = {
  awaiting: 'nothing',
  read: (_question, written) => {
    const tidy = written.trim().toLowerCase()
    if (/^(every ?day|daily|all)$/.test(tidy)) return answer([...weekdays])
    const span = /^([a-z]+)\s*(?:-|–|to)\s*([a-z]+)$/u.exec(tidy)
    const days = span ? daysBetween(weekdayOf(span[1]), weekdayOf(span[2])) : tidy.split(/[\s,;/&]+|\band\b/u).filter(Boolean).map(weekdayOf)
    const named = days.filter((day): day is Weekday => day !== null)
    if (named.length === 0 || named.length !== days.length) return unusable('no-weekdays')
    return answer(weekdays.filter((day) => named.includes(day)))
  },
  press: (_question, value) => answer(value === 'every' ? [...weekdays] : value.split('-')),
  buttons: (_question, { words }) => [
    [{ label: words.say('common.days.three'), value: 'mon-wed-fri' }],
    [{ label: words.say('common.days.five'), value: 'mon-tue-wed-thu-fri' }],
    [{ label: words.say('common.days.every'), value: 'every' }],
  ],
}

function weekdayOf(name: string | undefined): Weekday | null {
  return weekdays.find((day) => name !== undefined && name.startsWith(day)) ?? null
}

function daysBetween(from: Weekday | null, to: Weekday | null): (Weekday | null)[] {
  if (from === null || to === null) return [null]
  const start = weekdays.indexOf(from)
  const length = ((weekdays.indexOf(to) - start + weekdays.length) % weekdays.length) + 1
  return Array.from({ length }, (_, index) => weekdays[(start + index) % weekdays.length] ?? null)
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
