import type { Pain } from '#src/domain/set-report.ts'
import type { Certainty } from './certainty.ts'
import { hasWhole } from './clauses.ts'
import type { Found } from './find-phrases.ts'
import type { Quantity } from './quantities.ts'

const worstPain = 10
// Our choice: nobody counts more repetitions in reserve than this; what is higher is a slip or a joke.
const mostReserve = 30
const fillersBetween = 3

/** Pain 0–10, the worst that is said, fractions up; null where nothing usable is said. */
export function readPain(found: Found, quantities: readonly Quantity[], ache: readonly Certainty[], onlyCounts: ReadonlySet<string>): Pain | null {
  const isCount = (it: Quantity): boolean => onlyCounts.has(found.tokens[it.start]?.text ?? '')
  const said = withoutTakenBack(quantities.filter((it) => !isCount(it) && !isLabelled(it, found, reserveLabels)), found)
  if (said.some(({ value }) => value === null)) return null
  if (said.length === 0) return isWithoutPain(found, ache) ? 0 : null
  const worst = Math.max(...said.map(({ value }) => value ?? 0))
  // "10+" and "more than 10" are the end of the scale; 10.5 in digits is not on it.
  return worst > worstPain ? null : Math.ceil(worst)
}

function isWithoutPain(found: Found, ache: readonly Certainty[]): boolean {
  if (found.all('pain-except').length > 0) return false
  if (ache.some((certainty) => certainty !== 'denied')) return false
  return ache.length > 0 || hasWhole('no-pain', found)
}

/** Whole repetitions left, the fewest that are said, fractions down; null where nothing usable is said. */
export function readReserve(found: Found, quantities: readonly Quantity[]): number | null {
  // Out of ten is how pain is told.
  const said = withoutTakenBack(quantities.filter((it) => !it.isOutOfTen && !isLabelled(it, found, painLabels)), found)
  const values = said.map(({ value }) => value)
  if (hasWhole('no-reserve', found)) values.push(0)
  if (values.length === 0 || values.some((value) => value === null || value > mostReserve)) return null
  return Math.floor(Math.min(...values.map((value) => value ?? 0)))
}

/** Repetitions left, told without having been asked: only a number that says what it counts. */
export function readToldReserve(found: Found, quantities: readonly Quantity[]): number | null {
  return readReserve(found, quantities.filter((it) => isLabelled(it, found, reserveLabels)))
}

/** "4? No, 3": a "no" that stands alone or follows a number, and a break, take back what was said before another number. */
function withoutTakenBack(said: readonly Quantity[], found: Found): readonly Quantity[] {
  const last = said.findLastIndex((it) => isAfterNo(it.startOfRange, said, found))
  return last > 0 ? said.slice(last) : said
}

function isAfterNo(start: number, said: readonly Quantity[], found: Found): boolean {
  let before = start
  while (start - before < fillersBetween && found.endingAt('filler', before) !== undefined) before -= 1
  const no = found.tokens[before - 1]?.kind === 'mark' ? found.endingAt('says-no', before - 1) : undefined
  // "5, arm no, 3 left": there the "no" is of the arm.
  return no !== undefined && (found.tokens[no.start - 1]?.kind === 'mark' || said.some(({ end }) => end === no.start))
}

interface Labels {
  readonly after: string
  readonly before: string
}
const reserveLabels: Labels = { after: 'reserve-label-after', before: 'reserve-label-before' }
const painLabels: Labels = { after: 'pain-label', before: 'pain-label' }

/** Whether words beside the number say what it counts. */
function isLabelled(it: Quantity, found: Found, labels: Labels): boolean {
  const end = it.endOfRange
  // "3 left" counts repetitions, "3 left shoulder" does not.
  if (found.startingAt(labels.after, end) !== undefined && found.startingAt('body-side', end) === undefined) return true
  let start = it.startOfRange
  for (let step = 0; step < fillersBetween; step += 1) {
    if (found.endingAt(labels.before, start) !== undefined) return true
    // "Reserve: 4".
    if (found.endingAt('filler', start) === undefined && found.tokens[start - 1]?.text !== ':') return false
    start -= 1
  }
  return false
}
