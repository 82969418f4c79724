// The plan that the answers of an enrolment make.
import type { Content } from '#src/content/content.ts'
import type { Conversation } from '#src/conversation/flow.ts'
import { brandAs, type ExerciseId } from '#src/domain/identifier.ts'
import type { Band, KnownSign, Plan, Screening, Weekday } from '#src/domain/plan.ts'
import { chooseExercises } from '#src/rules/choose-exercises.ts'
import type { Desk } from '../desk.ts'

type Data = Conversation['data']

/** The one direction that can be enrolled by questions until the other ladders exist. */
export const enrolledDirection = 'extension'
export const enrolledProtocol = 'novice'

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
  const bands = data.bands
  return Array.isArray(bands) ? (bands as readonly Band[]) : []
}

export function planFrom(data: Data, desk: Desk): Plan {
  const rung = Number(text(data, 'rung') || 1)
  const measured = count(data, 'measurement')
  const second = desk.colleagues.find((card) => card.desk === data.second)
  return {
    client: { name: text(data, 'name'), language: desk.language },
    zone: text(data, 'zone'),
    emergencyNumber: text(data, 'emergency-number'),
    outOfHoursNumber: text(data, 'out-of-hours-number'),
    protocol: enrolledProtocol,
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
    knownSigns: list(data, 'known-signs').map(knownSign),
    restrictions: list(data, 'restrictions'),
    contraindications: [],
    ladders: [
      {
        direction: enrolledDirection,
        rung,
        maxRung: Math.max(rung, Number(text(data, 'max-rung') || rung)),
        shown: list(data, 'shown').map((id) => brandAs<ExerciseId>(id)),
      },
    ],
    measurements: measured === null ? [] : [{ direction: enrolledDirection, force: measured, unit: 'N', leverCm: null, on: null }],
    contacts: { therapist: { name: desk.name }, second: second ? { name: second.name } : null },
  }
}

/** A long-standing sign, as pressed; side, area and worst level are the therapist's notes in the plan file. */
function knownSign(sign: string): KnownSign {
  return { sign, words: sign, side: null, area: '', worst: 0 }
}

export const planProblems = ['start-not-open', 'start-not-shown', 'time-in-quiet'] as const
export type PlanProblem = (typeof planProblems)[number]

/** Why a plan cannot be used as it is; empty where it can. */
export function problemsOf(plan: Plan, content: Content, isInQuiet: (time: string, quiet: Plan['schedule']['quiet']) => boolean): readonly PlanProblem[] {
  const problems: PlanProblem[] = []
  const own = plan.ladders[0]
  const ladder = content.ladders.get(enrolledDirection)
  const open = ladder ? chooseExercises(plan, ladder, content.exercises, content.triage.gates) : []
  const start = open.find((one) => one.rung === own?.rung)
  if (!start) problems.push('start-not-open')
  else if (!own?.shown.includes(start.exercise.id)) problems.push('start-not-shown')
  if (isInQuiet(plan.schedule.time, plan.schedule.quiet)) problems.push('time-in-quiet')
  return problems
}

