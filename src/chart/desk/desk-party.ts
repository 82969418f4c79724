// How a therapist's desk takes part in conversations.
import type { Conversation, Facts } from '#src/conversation/flow.ts'
import type { Answer, Option } from '#src/conversation/question.ts'
import { noneOption } from '#src/conversation/questions/choices.ts'
import type { Band } from '#src/domain/plan.ts'
import { isLimited, refusals, type GateReason } from '#src/rules/eligibility.ts'
import { isInQuiet } from '#src/schedule/quiet-hours.ts'
import type { Cover, Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'
import type { ActionHandler, Party, Values } from '../turn.ts'
import { enrolClient } from './enrol-client.ts'
import { bandsOf, enrolledDirection, planFrom, problemsOf, screeningOf } from './enrolment-plan.ts'
import { describePlan } from './describe-plan.ts'
import { settleInAs } from './settle-in.ts'

const actions: Readonly<Record<string, ActionHandler<Desk>>> = {
  'settle-in': settleIn,
  'say-left': (draft) => draft.say(wordsOf(draft).say('desk.left')),
  'say-refused': sayRefused,
  'keep-band': keepBand,
  'start-again': (draft) => setOnTop(draft, {}),
  'say-plan-problems': (draft, conversation) => {
    for (const problem of problems(draft, conversation)) draft.say(wordsOf(draft).say(`enrolment.problem.${problem}`))
  },
  enrol: (draft, conversation) => enrolClient(draft, planFrom(conversation.data, draft.document)),
  'clear-lock': clearLock,
}

export const deskParty: Party<Desk> = {
  words: (desk, draft) => draft.words(desk.language),
  contact: (desk) => desk.contact,
  facts,
  actions,
  options: (draft, conversation, from) => optionsFrom[from]?.(draft, conversation) ?? [],
  values,
  asked: () => undefined,
  urgency: () => 'reply',
}

function wordsOf(draft: Draft<Desk>): ReturnType<Draft<Desk>['words']> {
  return draft.words(draft.document.language)
}

function facts(draft: Draft<Desk>, conversation: Conversation): Facts {
  if (conversation.flow !== 'enrolment') return {}
  const screening = screeningOf(conversation.data)
  const { gates } = draft.content.triage
  return {
    needsClearance: screening.conditions.some((condition) => gates.refusingWithoutClearance.includes(condition)),
    needsGuardian: screening.age >= gates.minimumAge && screening.age < gates.guardianBelowAge,
    isRefused: refusals(screening, gates).length > 0,
    isLimited: isLimited(screening, gates),
    // Only at the end are all the answers there that make a plan.
    isPlanUsable: conversation.state === 'review' && problems(draft, conversation).length === 0,
  }
}

function problems(draft: Draft<Desk>, conversation: Conversation): ReturnType<typeof problemsOf> {
  return problemsOf(planFrom(conversation.data, draft.document), draft.content, isInQuiet)
}

function settleIn(draft: Draft<Desk>, { data }: Conversation): void {
  const hours = data.hours as unknown as { from: string; to: string }
  const cover: Cover = { days: data.days as unknown as Cover['days'], from: hours.from, to: hours.to }
  settleInAs(draft, { name: String(data.name), zone: String(data.zone), cover })
}

function keepBand(draft: Draft<Desk>, { data }: Conversation, band: Answer): void {
  setOnTop(draft, { ...data, bands: [...bandsOf(data), band as unknown as Band] as unknown as Answer })
}

function setOnTop(draft: Draft<Desk>, data: Conversation['data']): void {
  const stack = draft.document.conversations
  const top = stack.at(-1)
  if (top) draft.converse({ conversations: [...stack.slice(0, -1), { ...top, data }] })
}

function sayRefused(draft: Draft<Desk>, { data }: Conversation): void {
  const words = wordsOf(draft)
  const reasons = refusals(screeningOf(data), draft.content.triage.gates).map((reason) => words.say(`enrolment.refused.${reason.kind}`, valuesOfReason(draft, reason)))
  draft.say([words.say('enrolment.refused.title'), ...reasons].join('\n'))
}

function valuesOfReason(draft: Draft<Desk>, reason: GateReason): Values {
  const { kind: _, ...rest } = reason
  return 'condition' in rest ? { condition: wordsOf(draft).say(`conditions.${rest.condition}`) } : rest
}

function clearLock(draft: Draft<Desk>, { data }: Conversation): void {
  draft.tell(data.chart as never, {
    kind: 'cleared',
    by: { desk: draft.document.id, name: draft.document.name },
    assessed: String(data.assessed),
    reason: String(data.reason),
    dose: data.dose === 'lowest' ? 'lowest' : 'usual',
  })
}

const optionsFrom: Readonly<Record<string, (draft: Draft<Desk>, conversation: Conversation) => readonly Option[]>> = {
  conditions: (draft) => {
    const { refusing, refusingWithoutClearance, limiting, noBridge } = draft.content.triage.gates
    return [...new Set([...refusing, ...refusingWithoutClearance, ...limiting, ...noBridge])].map((id) => ({ value: id, words: `conditions.${id}` }))
  },
  'known-signs': (draft) =>
    draft.content.triage.signs
      .filter((sign) => sign.level === 'urgent' && sign.group !== 'none')
      .map((sign) => ({ value: sign.id, words: `signs.therapist.${sign.id}` })),
  restrictions: (draft) => [...draft.content.restrictions].map((id) => ({ value: id, words: `restrictions.${id}` })),
  rungs: (draft) => rungOptions(draft, 1),
  'rungs-above': (draft, { data }) => rungOptions(draft, Number(data.rung)),
  exercises: (draft) => exerciseIds(draft).map((id) => ({ value: id, label: wordsOf(draft).exercise(id).name })),
  colleagues: (draft) => [
    ...draft.document.colleagues.filter((card) => card.desk !== draft.document.id).map((card) => ({ value: card.desk, label: card.name })),
    { value: noneOption, words: 'common.nobody', saidBy: ['none'] },
  ],
}

function exerciseIds(draft: Draft<Desk>): readonly Parameters<ReturnType<typeof wordsOf>['exercise']>[0][] {
  return (draft.content.ladders.get(enrolledDirection)?.rungs ?? []).flatMap((rung) => rung.exercises)
}

function rungOptions(draft: Draft<Desk>, least: number): readonly Option[] {
  const rungs = draft.content.ladders.get(enrolledDirection)?.rungs ?? []
  return rungs
    .filter((rung) => rung.rung >= least)
    .map((rung) => {
      const first = rung.exercises[0]
      return { value: String(rung.rung), label: `${rung.rung}. ${first ? wordsOf(draft).exercise(first).name : ''}` }
    })
}

function values(draft: Draft<Desk>, conversation: Conversation, words: string): Values {
  if (words === 'enrolment.review') return { plan: describePlan(draft, planFrom(conversation.data, draft.document)) }
  if (conversation.flow === 'clearing') return { client: String(conversation.data.client), dose: String(conversation.data.startDose) }
  return {}
}
