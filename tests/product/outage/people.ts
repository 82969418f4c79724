// The people of the hour without the network, all invented, and what each of them would answer.
import { brandAs, type ExerciseId } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import { tryPlan } from '#tests/support/telegram-clinic.ts'

/** A press on the newest button of that label, of a message with those words where they are given; or words. */
export type Answer = { readonly press: string; readonly under?: string } | { readonly write: string }

export interface Trainee {
  readonly chat: number
  readonly name: string
  readonly time: string
  readonly isOnHarness: boolean
  /** What becomes of the session if nothing breaks, answer by answer; the first `before` of them come before the line breaks. */
  readonly answers: readonly Answer[]
  readonly before: number
}

export const maren = 900
export const idris = 901

const start = presses('Ready', 'None of these', '1', 'Done')
const firstSet = presses('Done', '1', 'No', '3')
const secondSet = presses('Done', '2', 'No', '3')
const thirdSet = presses('Done', '1', 'A little', '2')
const effort = presses('5')
const wholeSession = [...start, ...firstSet, ...secondSet, ...thirdSet, ...effort]
const inFirstSet = start.length

export const numbHand = 'my left hand has gone numb and tingly'
export const noLegs = 'I cannot feel my legs'

export const trainees: readonly Trainee[] = [
  trainee(500, 'Orla Tiernan', wholeSession, inFirstSet + 2),
  trainee(501, 'Noor Lindqvist', wholeSession, 0),
  trainee(502, 'Tomas Ekwall', wholeSession, inFirstSet + 4),
  trainee(503, 'Ines Carrow', wholeSession, inFirstSet + 2),
  trainee(504, 'Bram Oduya', [...start, ...firstSet, { press: 'Done' }, { write: '4' }, ...presses('No', '3'), ...thirdSet, ...effort], inFirstSet + 5),
  trainee(505, 'Sefa Marchetti', wholeSession, wholeSession.length - 1),
  trainee(506, 'Lior Abendroth', [...start, { write: numbHand }], inFirstSet),
  trainee(507, 'Petra Halloway', [...start, { write: noLegs }, ...presses('Called')], inFirstSet),
  trainee(508, 'Ayo Brandvold', wholeSession, inFirstSet + 7),
  { ...trainee(509, 'Mirthe Solheim', wholeSession, inFirstSet), isOnHarness: true },
  { ...trainee(510, 'Jonas Achterberg', wholeSession, 0), time: '18:45' },
]

export function planOf({ name, time, isOnHarness }: Trainee): Plan {
  const plan = { ...tryPlan, client: { ...tryPlan.client, name }, schedule: { ...tryPlan.schedule, time } }
  return isOnHarness ? { ...plan, ladders: [{ direction: 'extension', rung: 4, maxRung: 4, shown: [brandAs<ExerciseId>('seated-harness')] }] } : plan
}

export function nameOf(chat: number): string {
  if (chat === maren) return 'Maren Holt'
  if (chat === idris) return 'Idris Vane'
  return trainees.find((one) => one.chat === chat)?.name ?? 'somebody'
}

function trainee(chat: number, name: string, answers: readonly Answer[], before: number): Trainee {
  return { chat, name, answers, before, time: '18:00', isOnHarness: false }
}

function presses(...labels: readonly string[]): readonly Answer[] {
  return labels.map((press) => ({ press }))
}
