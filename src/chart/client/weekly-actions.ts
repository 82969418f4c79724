// The actions of the weekly check-in. Each answer is in the chart and the record as soon as it is given: a session or a
// sign may take the conversation away at any question.
import type { Conversation, Facts } from '#src/conversation/flow.ts'
import type { Answer } from '#src/conversation/question.ts'
import type { Instant } from '#src/domain/identifier.ts'
import { beforeSession } from '#src/rules/before-session.ts'
import { painZone } from '#src/rules/pain-zone.ts'
import { weeklyAverage } from '#src/rules/weekly-average.ts'
import { daysBetween, localDateOf } from '#src/schedule/wall-time.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { addScore, addWeek, keep, mayNameAnother, ofOccasion, scoresOf, takeBackScore, turns, type Outcomes, type WeekOfPain } from '../outcomes.ts'
import type { ActionHandler, Values } from '../turn.ts'
import { planOf, protocolOf, todayOf } from './plan-facts.ts'
import { raiseRoutine } from './raise-routine.ts'
import { raiseSeverePain } from './raise-severe-pain.ts'
import { say } from './say.ts'

const dayMs = 24 * 3_600_000
/** Two weeks running: the next weekly question, answered up to a day late. */
const secondWeekMs = 8 * dayMs
const weekDays = 7

export const weeklyActions: Readonly<Record<string, ActionHandler<Chart>>> = {
  'record-week-now': (draft, conversation, pain) => changeWeek(draft, begin(draft, conversation), { now: Number(pain) }),
  'record-week-best': (draft, conversation, pain) => changeWeek(draft, occasionOf(conversation), { best: pain === null ? null : Number(pain) }),
  'record-week-worst': (draft, conversation, pain) => changeWeek(draft, occasionOf(conversation), { worst: pain === null ? null : Number(pain) }),
  'raise-severe-week': (draft, conversation) => raiseSeverePain(draft, weekOf(draft, conversation)?.now ?? 0),
  'judge-week': judgeWeek,
  'begin-activities': (draft) => changeOutcomes(draft, { activitiesAskedAt: draft.at }),
  'name-activity': nameActivity,
  'record-activity-score': recordScore,
  'take-back-score': (draft, conversation) => draft.change({ outcomes: takeBackScore(draft.document.outcomes, occasionOf(conversation)) }),
  'begin-change': (draft) => changeOutcomes(draft, { changeAskedAt: draft.at }),
  'record-change': (draft, conversation, turn) => recordChange(draft, conversation, String(turn), null),
  'record-how-much': (draft, conversation, amount) => {
    const turn = ofOccasion(draft.document.outcomes.changes, occasionOf(conversation))?.turn ?? 'same'
    recordChange(draft, conversation, turn, amount === null ? null : Number(amount))
  },
  thank: (draft) => draft.say(say(draft, 'client').text('weekly.thanks')),
}

/** The instant of the check-in's first answer, under which all of its answers are kept. */
function occasionOf({ data }: Conversation): Instant {
  return Number(data.startedAt)
}

/** Also where the client went back to the first question. */
function begin(draft: Draft<Chart>, conversation: Conversation): Instant {
  if (typeof conversation.data.startedAt === 'number') return conversation.data.startedAt
  const stack = draft.document.conversations
  const begun = { ...conversation, data: { ...conversation.data, startedAt: draft.at } }
  draft.converse({ conversations: [...stack.slice(0, -1), begun] })
  return draft.at
}

function changeOutcomes(draft: Draft<Chart>, patch: Partial<Outcomes>): void {
  draft.change({ outcomes: { ...draft.document.outcomes, ...patch } })
}

function weekOf(draft: Draft<Chart>, conversation: Conversation): WeekOfPain | null {
  return ofOccasion(draft.document.outcomes.weeks, occasionOf(conversation))
}

function changeWeek(draft: Draft<Chart>, at: Instant, patch: Partial<WeekOfPain>): void {
  const { weeks } = draft.document.outcomes
  const week = { ...(ofOccasion(weeks, at) ?? { at, now: 0, best: null, worst: null }), ...patch }
  changeOutcomes(draft, { weeks: addWeek(weeks, week) })
  draft.record('weekly', 'client', { occasion: at, now: week.now, best: week.best, worst: week.worst, average: weeklyAverage(week) })
}

function judgeWeek(draft: Draft<Chart>): void {
  const [before, week] = draft.document.outcomes.weeks.slice(-2)
  if (before === undefined || week === undefined || week.at - before.at > secondWeekMs) return
  const { usualPain } = planOf(draft.document)
  const averages = { before: weeklyAverage(before), average: weeklyAverage(week) }
  if (!isHigh(draft, averages.before) || !isHigh(draft, averages.average)) return
  raiseRoutine(draft, { title: say(draft, 'therapist').text('alert.weekly-high', { ...averages, usual: usualPain }), ladder: null, request: null })
}

function isHigh(draft: Draft<Chart>, average: number): boolean {
  const plan = planOf(draft.document)
  return average >= plan.usualPain + protocolOf(plan, draft.content).weekly.noProgressAboveUsualBy
}

function nameActivity(draft: Draft<Chart>, conversation: Conversation, name: Answer): void {
  const { activities } = draft.document.outcomes
  changeOutcomes(draft, { activities: [...activities, { name: String(name), namedAt: occasionOf(conversation), first: null }] })
  recordActivities(draft, conversation)
}

function recordScore(draft: Draft<Chart>, conversation: Conversation, score: Answer): void {
  const { outcomes } = draft.document
  draft.change({ outcomes: addScore(outcomes, occasionOf(conversation), score === null ? null : Number(score)) })
  recordActivities(draft, conversation)
}

function recordActivities(draft: Draft<Chart>, conversation: Conversation): void {
  const { outcomes } = draft.document
  const occasion = occasionOf(conversation)
  const scores = scoresOf(outcomes, occasion)
  draft.record('activities', 'client', { occasion, activities: outcomes.activities.map(({ name }, place) => ({ name, score: scores[place] ?? null })) })
}

function recordChange(draft: Draft<Chart>, conversation: Conversation, said: string, amount: number | null): void {
  const turn = turns.find((one) => one === said) ?? 'same'
  const at = occasionOf(conversation)
  changeOutcomes(draft, { changes: keep(draft.document.outcomes.changes, { at, turn, amount }) })
  draft.record('global-change', 'client', { occasion: at, turn, amount })
}

export function weeklyFacts(draft: Draft<Chart>, conversation: Conversation): Facts {
  const { outcomes, consentedAt } = draft.document
  const plan = planOf(draft.document)
  const protocol = protocolOf(plan, draft.content)
  const { everyWeeks } = draft.content.measures
  const week = weekOf(draft, conversation)
  const isRed = (pain: number | null): boolean => pain !== null && painZone(pain, plan.usualPain, protocol) === 'red'
  const occasion = occasionOf(conversation)
  return {
    isSevere: week !== null && beforeSession(week.now, plan.usualPain, protocol) === 'urgent',
    asksSymptom: week !== null && (isRed(week.now) || isRed(week.worst)),
    areActivitiesDue: outcomes.activitiesAskedAt === null || weeksSince(draft, outcomes.activitiesAskedAt) >= everyWeeks.activities,
    hasActivityToScore: scoresOf(outcomes, occasion).length < outcomes.activities.length,
    hasScored: scoresOf(outcomes, occasion).length > 0,
    mayNameAnother: mayNameAnother(outcomes, occasion),
    isChangeDue: weeksSince(draft, outcomes.changeAskedAt ?? consentedAt ?? draft.at) >= everyWeeks.globalChange,
  }
}

/** To the nearest week, since one check-in may be answered in the morning and the next a day later. */
function weeksSince(draft: Draft<Chart>, at: Instant): number {
  return Math.round(daysBetween(localDateOf(at, planOf(draft.document).zone), todayOf(draft)) / weekDays)
}

export const weeklyValues: Readonly<Record<string, (draft: Draft<Chart>, conversation: Conversation) => Values>> = {
  'weekly.activity': (draft) => ({ count: draft.document.outcomes.activities.length }),
  'weekly.score': (draft, conversation) => {
    const { outcomes } = draft.document
    return { activity: outcomes.activities[scoresOf(outcomes, occasionOf(conversation)).length]?.name ?? '' }
  },
  'weekly.how-much': (draft, conversation) => ({ turn: ofOccasion(draft.document.outcomes.changes, occasionOf(conversation))?.turn ?? 'better' }),
}
