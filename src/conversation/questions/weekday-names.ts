import { weekdays, type Weekday } from '#src/domain/plan.ts'
import type { Lexicon } from '#src/content/lexicon.ts'
import { replaceEntry, tidyEntry, wholeWords } from './entry-words.ts'

interface DayNames {
  readonly long: readonly string[]
  readonly short: readonly string[]
  readonly any: RegExp
}

const known = new Map<string, DayNames>()
const shortestPrefix = 3

/** 2024-01-01 was a Monday. */
function namesIn(language: string): DayNames {
  const made = known.get(language)
  if (made !== undefined) return made
  const namesOf = (weekday: 'long' | 'short'): readonly string[] => {
    const format = new Intl.DateTimeFormat(language, { weekday, timeZone: 'UTC' })
    return weekdays.map((_, day) => tidyEntry(format.format(Date.UTC(2024, 0, 1 + day))))
  }
  const [long, short] = [namesOf('long'), namesOf('short')]
  const names: DayNames = { long, short, any: wholeWords([...long, ...short].toSorted((a, b) => b.length - a.length)) }
  known.set(language, names)
  return names
}

/**
 * Days as they are typed, e.g. `mon, wed and fri`, `Monday to Friday`, `every day`: the names of the language in full, in
 * short or begun with three letters, in the order of the week. Null where one is none, or may be two.
 */
export function readWeekdays(written: string, lexicon: Lexicon): readonly Weekday[] | null {
  const tidy = tidyEntry(written)
  if (replaceEntry(tidy, 'every-day', '*', lexicon) === '*') return [...weekdays]
  const names = namesIn(lexicon.language)
  // Whole names first: some hold a blank or a dash.
  const numbered = tidy.replace(names.any, (name) => `#${(names.long.includes(name) ? names.long : names.short).indexOf(name)}`)
  const spans = replaceEntry(numbered, 'span-word', '-', lexicon).replaceAll(/ ?- ?/gu, '-')
  const items = replaceEntry(replaceEntry(spans, 'and-word', ',', lexicon), 'at-word', ' ', lexicon).split(/[ ,;/&]+/u).filter(Boolean)
  const days = items.flatMap((item) => daysOf(item.split('-'), names))
  const named = days.filter((day): day is Weekday => day !== null)
  return named.length === 0 || named.length !== days.length ? null : weekdays.filter((day) => named.includes(day))
}

function daysOf([from, to, ...more]: readonly string[], names: DayNames): readonly (Weekday | null)[] {
  const start = dayOf(from ?? '', names)
  if (to === undefined) return [start]
  const end = dayOf(to, names)
  return start === null || end === null || more.length > 0 ? [null] : daysBetween(start, end)
}

function dayOf(word: string, { long, short }: DayNames): Weekday | null {
  if (word.startsWith('#')) return weekdays[Number(word.slice(1))] ?? null
  if (word.length < shortestPrefix) return null
  const meant = weekdays.filter((_, day) => {
    const begins = long[day]?.startsWith(word) === true
    // One letter more is a plural ("mondays"), or another short form ("weds").
    return begins || [long[day], short[day]].some((name) => name !== undefined && name.length >= shortestPrefix && word.slice(0, -1) === name)
  })
  return meant.length === 1 ? (meant[0] ?? null) : null
}

/** Both ends counted; from Saturday to Monday is over the weekend. */
function daysBetween(from: Weekday, to: Weekday): readonly Weekday[] {
  const start = weekdays.indexOf(from)
  const length = ((weekdays.indexOf(to) - start + weekdays.length) % weekdays.length) + 1
  return [...weekdays, ...weekdays].slice(start, start + length)
}
