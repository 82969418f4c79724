// The enrolment at a therapist's desk: its facts, its options, and what its answers do.
import type { Conversation, Facts } from '#src/conversation/flow.ts'
import type { Answer, Option } from '#src/conversation/question.ts'
import { noneOption } from '#src/conversation/questions/choices.ts'
import { ladderIds } from '#src/domain/direction.ts'
import type { Band, Plan } from '#src/domain/plan.ts'
import type { RungExercise } from '#src/rules/choose-exercises.ts'
import { isLimited, refusals, type GateReason } from '#src/rules/eligibility.ts'
import { localDateOf } from '#src/schedule/wall-time.ts'
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'
import type { ActionHandler, Values } from '../turn.ts'
import { describePlan } from './describe-plan.ts'
import { doubtOf } from './doubt.ts'
import { enrolClient } from './enrol-client.ts'
import {
  chosenLadders,
  currentLadder,
  directionToMeasure,
  doneLadders,
  needsMaximum,
  openRungs,
  underWay,
  withoutUnderWay,
  type LadderAnswers,
} from './enrolment-ladders.ts'
import { bandsOf, planFrom, problemsOf, screeningOf } from './enrolment-plan.ts'
import { knownSignActions, knownSignFacts, knownSignInTurn, knownSignOptions } from './known-signs.ts'
import { setOnTop } from './set-on-top.ts'

type Data = Conversation['data']

/** The plan as far as it is answered. */
function planSoFar(draft: Draft<Desk>, data: Data): Plan {
  const { zone } = draft.document
  return planFrom(data, draft.document, localDateOf(draft.at, zone))
}

/** The open rungs of the ladder that is being asked about. */
function rungsNow(draft: Draft<Desk>, data: Data): readonly RungExercise[] {
  const ladder = currentLadder(data)
  return ladder === null ? [] : openRungs(planSoFar(draft, data), ladder, draft.content)
}

export function enrolmentFacts(draft: Draft<Desk>, { data, state }: Conversation): Facts {
  const screening = screeningOf(data)
  const { gates } = draft.content.triage
  const rungs = rungsNow(draft, data)
  const now = underWay(data)
  const direction = directionToMeasure(data)
  return {
    needsClearance: screening.conditions.some((condition) => gates.refusingWithoutClearance.includes(condition)),
    needsGuardian: screening.age >= gates.minimumAge && screening.age < gates.guardianBelowAge,
    isRefused: refusals(screening, gates).length > 0,
    isLimited: isLimited(screening, gates),
    ...knownSignFacts(data),
    hasLadders: chosenLadders(data).length > 0,
    isFirstLadder: doneLadders(data).length === 0,
    hasNextLadder: currentLadder(data) !== null,
    hasRungAbove: rungs.some(({ rung }) => rung > now.rung),
    hasMeasurement: direction !== null && needsMaximum(rungs, now.maxRung),
    isImplausible: state === 'weighing' && direction !== null && doubtOf(direction, data.measurement, data.doubted) !== null,
    hasLanguages: draft.content.languages.size > 1,
    // Only at the end are all the answers there that make a plan.
    isPlanUsable: state === 'review' && problemsOf(planSoFar(draft, data), draft.content).length === 0,
  }
}

export const enrolmentActions: Readonly<Record<string, ActionHandler<Desk>>> = {
  'say-refused': sayRefused,
  ...knownSignActions,
  'keep-band': (draft, { data }, band) => setOnTop(draft, { ...data, bands: [...bandsOf(data), band as unknown as Band] as unknown as Answer }),
  'say-no-ladder': (draft) => draft.say(wordsOf(draft).say('enrolment.no-ladder')),
  'begin-ladders': (draft, { data }) => setOnTop(draft, { ...withoutUnderWay(data), 'ladder-plans': [] }),
  'begin-ladder': (draft, { data }) => setOnTop(draft, withoutUnderWay(data)),
  'keep-measurement': keepMeasurement,
  'forget-enrolled-measurements': (draft, { data }) => setOnTop(draft, { ...data, measured: [] }),
  'keep-ladder': keepLadder,
  'reopen-ladder': (draft, { data }) => setOnTop(draft, { ...withoutUnderWay(data), 'ladder-plans': doneLadders(data).slice(0, -1) }),
  'start-again': (draft) => setOnTop(draft, {}),
  'say-plan-problems': sayPlanProblems,
  enrol: (draft, { data }) => enrolClient(draft, planSoFar(draft, data)),
}

function keepMeasurement(draft: Draft<Desk>, { data }: Conversation): void {
  const { measurement, doubted: _, ...rest } = data
  setOnTop(draft, { ...rest, measured: [...underWay(data).measured, measurement ?? null] })
}

function keepLadder(draft: Draft<Desk>, { data }: Conversation): void {
  const ladder = currentLadder(data)
  if (ladder === null) return
  const done: LadderAnswers = { ladder, ...underWay(data) }
  setOnTop(draft, { ...withoutUnderWay(data), 'ladder-plans': [...doneLadders(data), done] })
}

function sayPlanProblems(draft: Draft<Desk>, { data }: Conversation): void {
  const words = wordsOf(draft)
  for (const { kind, ladder } of problemsOf(planSoFar(draft, data), draft.content)) {
    draft.say(words.say(`enrolment.problem.${kind}`, ladder === null ? {} : { ladder: words.say(`common.ladder.${ladder}`) }))
  }
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

function wordsOf(draft: Draft<Desk>): ReturnType<Draft<Desk>['words']> {
  return draft.words(draft.document.language)
}

type Options = (draft: Draft<Desk>, data: Data) => readonly Option[]

export const enrolmentOptions: Readonly<Record<string, Options>> = {
  conditions: (draft) => {
    const { refusing, refusingWithoutClearance, limiting, noBridge, noted } = draft.content.triage.gates
    const known = new Set([...refusing, ...refusingWithoutClearance, ...limiting, ...noBridge, ...noted])
    return [...known].map((id) => ({ value: id, words: `conditions.${id}` }))
  },
  'known-signs': knownSignOptions,
  restrictions: (draft) => [...draft.content.restrictions].map((id) => ({ value: id, words: `restrictions.${id}` })),
  protocols: (draft) => [...draft.content.protocols.keys()].map((id) => ({ value: id, words: `enrolment.protocols.${id}` })),
  // A ladder of which nothing is open to this client is not offered.
  ladders: (draft, data) =>
    ladderIds.filter((id) => openRungs(planSoFar(draft, data), id, draft.content).length > 0).map((id) => ({ value: id, words: `common.ladder.${id}` })),
  rungs: (draft, data) => rungOptions(draft, data, 1),
  'rungs-above': (draft, data) => rungOptions(draft, data, underWay(data).rung),
  exercises: (draft, data) =>
    rungsNow(draft, data)
      .filter(({ rung }) => rung <= underWay(data).maxRung)
      .map(({ exercise }) => ({ value: exercise.id, label: wordsOf(draft).exerciseName(exercise.id) })),
  languages: (draft) => [...draft.content.languages.keys()].map((id) => ({ value: id, label: languageName(id) })),
  colleagues: (draft) => [
    ...draft.document.colleagues.filter((card) => card.desk !== draft.document.id).map((card) => ({ value: card.desk, label: card.name })),
    { value: noneOption, words: 'common.nobody', saidBy: ['none'] },
  ],
}

function rungOptions(draft: Draft<Desk>, data: Data, least: number): readonly Option[] {
  return rungsNow(draft, data)
    .filter(({ rung }) => rung >= least)
    .map(({ rung, exercise }) => ({ value: String(rung), label: `${rung}. ${wordsOf(draft).exerciseName(exercise.id)}` }))
}

const ofLadder: ReadonlySet<string> = new Set(['enrolment.rung', 'enrolment.max-rung', 'enrolment.shown'])

export function enrolmentValues(draft: Draft<Desk>, { data }: Conversation, words: string): Values {
  const said = wordsOf(draft)
  if (words === 'enrolment.review') return { plan: describePlan(draft, planSoFar(draft, data)) }
  if (words === 'enrolment.known-sign') return { sign: said.say(`signs.therapist.${knownSignInTurn(data) ?? ''}`) }
  if (words === 'enrolment.measurement') return { direction: said.say(`common.direction.${directionToMeasure(data) ?? 'extension'}`) }
  return ofLadder.has(words) ? { ladder: said.say(`common.ladder.${currentLadder(data) ?? 'extension'}`) } : {}
}

/** What a language calls itself. */
function languageName(id: string): string {
  const name = new Intl.DisplayNames([id], { type: 'language' }).of(id) ?? id
  return name.charAt(0).toLocaleUpperCase(id) + name.slice(1)
}
