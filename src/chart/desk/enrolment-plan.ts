// The plan that the answers of an enrolment make.
import type { Content } from '#src/content/content.ts'
import type { Answer } from '#src/conversation/question.ts'
import type { Conversation } from '#src/conversation/flow.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { LocalDate } from '#src/domain/identifier.ts'
import type { Band, Plan, Screening, Weekday } from '#src/domain/plan.ts'
import { mayTakeIn } from '#src/domain/signature.ts'
import { chooseExercises } from '#src/rules/choose-exercises.ts'
import { laddersOf, plannedLadder } from '#src/rules/plan-ladders.ts'
import { isInQuiet } from '#src/schedule/quiet-hours.ts'
import type { Desk } from '../desk.ts'
import { knownSignsOf } from './known-signs.ts'
import { doneLadders, measurementsOf, planLaddersOf } from './enrolment-ladders.ts'

type Data = Conversation['data']

function list(data: Data, key: string): readonly string[] {
  const value = data[key]
  return Array.isArray(value) ? value.map(String) : []
}

function text(data: Data, key: string): string {
  const value = data[key]
  return typeof value === 'string' ? value : ''
}

function count(data: Data, key: string): number | null {
  const value = data[key]
  return typeof value === 'number' ? value : null
}

function span(data: Data, key: string): { from: string; to: string } {
  return (data[key] ?? { from: '21:00', to: '08:00' }) as { from: string; to: string }
}

export function screeningOf(data: Data): Screening {
  return {
    age: count(data, 'age') ?? 0,
    bloodPressure: (data['blood-pressure'] ?? null) as Screening['bloodPressure'],
    conditions: list(data, 'conditions'),
    hasSurgeonClearance: data['surgeon-clearance'] === true,
    hasGuardianConsent: data['guardian-consent'] === true,
    overrideReason: text(data, 'override-reason') || null,
  }
}

export function bandsOf(data: Data): readonly Band[] {
  const bands: Answer | undefined = data.bands
  return Array.isArray(bands) ? (bands as readonly Band[]) : []
}

/** `on`: the day that the measurements are of. */
export function planFrom(data: Data, desk: Desk, on: LocalDate): Plan {
  const second = desk.colleagues.find((card) => card.desk === data.second)
  return {
    client: { name: text(data, 'name'), language: text(data, 'language') || desk.language },
    zone: text(data, 'zone'),
    emergencyNumber: text(data, 'emergency-number'),
    outOfHoursNumber: text(data, 'out-of-hours-number'),
    protocol: text(data, 'protocol'),
    usualPain: count(data, 'usual-pain') ?? 0,
    schedule: { days: list(data, 'days') as readonly Weekday[], time: text(data, 'time'), quiet: span(data, 'quiet') },
    equipment: {
      platesKg: Array.isArray(data.plates) ? data.plates.map(Number) : [],
      harnessKg: count(data, 'harness'),
      bands: bandsOf(data),
      hasSupport: data.support === true,
      stepCm: count(data, 'step'),
    },
    screening: screeningOf(data),
    knownSigns: knownSignsOf(data),
    restrictions: list(data, 'restrictions'),
    contraindications: [],
    ladders: planLaddersOf(doneLadders(data)),
    measurements: measurementsOf(doneLadders(data), on),
    contacts: { therapist: { name: desk.name }, second: second ? { name: second.name } : null },
  }
}

export interface PlanProblem {
  readonly kind: 'not-signed' | 'unanswered' | 'no-protocol' | 'no-ladder' | 'start-not-open' | 'start-not-shown' | 'time-in-quiet'
  readonly ladder: LadderId | null
}

/** Why a plan cannot be used as it is; empty where it can. */
export function problemsOf(plan: Plan, content: Content): readonly PlanProblem[] {
  const general: PlanProblem['kind'][] = []
  // Signed when it began, and not as it is now.
  if (!mayTakeIn(content.signature)) general.push('not-signed')
  // Only a conversation left by an older version can come here without these three.
  if (lacksAnswers(plan)) general.push('unanswered')
  if (!content.protocols.has(plan.protocol)) general.push('no-protocol')
  if (plan.ladders.length === 0) general.push('no-ladder')
  if (plan.schedule.time !== '' && isInQuiet(plan.schedule.time, plan.schedule.quiet)) general.push('time-in-quiet')
  const ofLadders = laddersOf(plan).flatMap((ladder) => startProblem(plan, ladder, content) ?? [])
  return [...ofLadders, ...general.map((kind) => ({ kind, ladder: null }))]
}

function lacksAnswers({ client, zone, emergencyNumber, outOfHoursNumber, schedule, screening }: Plan): boolean {
  const texts = [client.name, zone, emergencyNumber, outOfHoursNumber, schedule.time]
  return texts.includes('') || schedule.days.length === 0 || !(screening.age > 0)
}

function startProblem(plan: Plan, id: LadderId, content: Content): PlanProblem | null {
  const own = plannedLadder(plan, id)
  const ladder = content.ladders.get(id)
  const open = ladder ? chooseExercises(plan, ladder, content.exercises, content.triage.gates) : []
  const start = open.find((one) => one.rung === own?.rung)
  if (!start) return { kind: 'start-not-open', ladder: id }
  return own?.shown.includes(start.exercise.id) === true ? null : { kind: 'start-not-shown', ladder: id }
}
