// A client's measures for the therapist: first and last, the change with its error, and who the sources measured.
import { scoreDisability } from '#src/rules/disability-score.ts'
import { sizeOfChange } from '#src/rules/global-change.ts'
import { isWholeWeek, weeklyAverage } from '#src/rules/weekly-average.ts'
import type { Instant } from '#src/domain/identifier.ts'
import type { MeasureId } from '#src/domain/measure.ts'
import { localDateOf } from '#src/schedule/wall-time.ts'
import type { Chart } from '../chart.ts'
import { describeChange } from '../describe-change.ts'
import type { Draft } from '../draft.ts'
import { activityChangeOf, signedRating } from '../outcomes.ts'
import { planOf } from './plan-facts.ts'
import { say } from './say.ts'

interface Value {
  readonly at: Instant
  readonly value: number
}

/** A line for each measure that there is; none where nothing was measured yet. */
export function describeOutcomes(draft: Draft<Chart>): readonly string[] {
  const { outcomes } = draft.document
  const weeks = outcomes.weeks.filter(isWholeWeek).map((week) => ({ at: week.at, value: weeklyAverage(week) }))
  const lines = [
    ...firstAndLast(draft, 'pain', weeks),
    ...activityLines(draft),
    ...disabilityLines(draft),
    ...globalLine(draft),
  ]
  return lines.length === 0 ? [] : [say(draft, 'therapist').text('outcomes.title'), ...lines]
}

function firstAndLast(draft: Draft<Chart>, id: MeasureId, values: readonly Value[], names: Readonly<Record<string, string | number>> = {}): readonly string[] {
  const { text, words } = say(draft, 'therapist')
  const { zone } = planOf(draft.document)
  const [first, last] = [values[0], values.at(-1)]
  if (first === undefined || last === undefined) return []
  const measure = text(`outcomes.measure.${id}`, names)
  if (values.length === 1) return [text('outcomes.first', { measure, value: last.value, on: localDateOf(last.at, zone) })]
  const change = describeChange(words, draft.content.measures.of[id], first.value, last.value)
  const dates = { from: localDateOf(first.at, zone), to: localDateOf(last.at, zone) }
  return [text('outcomes.first-and-last', { measure, first: first.value, last: last.value, ...dates, change })]
}

/** The mean of those that were scored both times, and each on its own. */
function activityLines(draft: Draft<Chart>): readonly string[] {
  const { outcomes } = draft.document
  const last = outcomes.rounds.at(-1)
  const change = activityChangeOf(outcomes)
  const each = outcomes.activities.flatMap(({ name, first }, place) => {
    const score = last?.scores[place] ?? null
    const later = last === undefined || score === null || first === null || first.at === last.at ? [] : [{ at: last.at, value: score }]
    return firstAndLast(draft, 'single-activity', first === null ? [] : [{ at: first.at, value: first.score }, ...later], { name })
  })
  if (change === null || last === undefined) return each
  const since = Math.min(...outcomes.activities.flatMap(({ first }) => first?.at ?? []))
  const mean = [{ at: since, value: change.first }, { at: last.at, value: change.last }]
  return [...firstAndLast(draft, 'activities', mean, { compared: change.compared }), ...each]
}

function disabilityLines(draft: Draft<Chart>): readonly string[] {
  const { text } = say(draft, 'therapist')
  const scored = draft.document.outcomes.disability.flatMap(({ at, items }) => {
    const score = scoreDisability(items)
    return score.kind === 'scored' ? [{ at, score }] : []
  })
  const lines = firstAndLast(draft, 'disability', scored.map(({ at, score }) => ({ at, value: score.raw })))
  const last = scored.at(-1)?.score
  if (last === undefined) return lines
  return [...lines, text('outcomes.disability-band', { percent: last.percent, band: text(`outcomes.band.${last.band}`) })]
}

function globalLine(draft: Draft<Chart>): readonly string[] {
  const last = draft.document.outcomes.changes.at(-1)
  if (last === undefined) return []
  const rating = signedRating(last)
  const size = rating === null ? 'unknown' : sizeOfChange(rating)
  const on = localDateOf(last.at, planOf(draft.document).zone)
  return [say(draft, 'therapist').text('outcomes.global-change', { on, turn: last.turn, amount: last.amount ?? 0, size })]
}
