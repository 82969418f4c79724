// What a therapist reads of the last weeks: sums, without a verdict.
import { adherenceOf, emptyWeek, type TrainingWeek } from '#src/rules/training-record.ts'
import { isoWeeksUpTo } from '#src/schedule/iso-week.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { todayOf } from './plan-facts.ts'
import { say } from './say.ts'

const weeksShown = 4
const secondsPerMinute = 60
const percent = 100

/** The four weeks together, then each with anything in it, the newest first; nothing before anything was asked for. */
export function describeTraining(draft: Draft<Chart>): readonly string[] {
  const shown = isoWeeksUpTo(todayOf(draft), weeksShown)
  const weeks = shown.map((id) => draft.document.training.weeks.find(({ week }) => week === id) ?? emptyWeek(id))
  const used = weeks.filter(({ prescribed, done }) => prescribed + done > 0)
  return used.length === 0 ? [] : [describeAll(draft, used), ...used.toReversed().map((week) => describeWeek(draft, week))]
}

/** Excess is counted week by week: what is too much in one is not what was missed in another. */
function describeAll(draft: Draft<Chart>, weeks: readonly TrainingWeek[]): string {
  const prescribed = weeks.reduce((sum, week) => sum + week.prescribed, 0)
  const excess = weeks.reduce((sum, week) => sum + adherenceOf(week.done, week.prescribed).excess, 0)
  const done = weeks.reduce((sum, week) => sum + week.done, 0) - excess
  const { share } = adherenceOf(done, prescribed)
  const values = { weeks: weeksShown, done, prescribed, excess, share: share === null ? 'unknown' : Math.round(share * percent) }
  return say(draft, 'therapist').text('training.title', values)
}

function describeWeek(draft: Draft<Chart>, { week, done, prescribed, sets, tensionSeconds, effortMinutes, rated }: TrainingWeek): string {
  const minutes = Math.round(tensionSeconds / secondsPerMinute)
  const values = { week, done, prescribed, sets, minutes, load: rated === 0 ? '–' : effortMinutes, rated, isWhole: rated === done ? 'yes' : 'no' }
  return say(draft, 'therapist').text('training.week', values)
}
