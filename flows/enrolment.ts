import type { Question } from '#src/conversation/question.ts'
import { ask, decideBy, defineFlow, final, type FlowState, type Way } from './define-flow.ts'
import { has, says } from './guards.ts'

/** One question of the enrolment and where its answer leads when that is not the next one. */
interface Item {
  readonly state: string
  readonly question: Question
  readonly ways?: readonly Way[]
}

/**
 * The questions in their order. Facts: `needsClearance`, `needsGuardian`, `isRefused`, `isLimited`, `isPlanUsable`.
 * The names of the states are the names under which the answers are kept.
 */
const items: readonly Item[] = [
  { state: 'name', question: { kind: 'text' } },
  { state: 'zone', question: { kind: 'zone' } },
  { state: 'emergency-number', question: { kind: 'phone' } },
  { state: 'out-of-hours-number', question: { kind: 'phone' } },
  { state: 'age', question: { kind: 'number', least: 1, most: 110, isWhole: true } },
  { state: 'blood-pressure', question: { kind: 'blood-pressure' } },
  { state: 'conditions', question: { kind: 'several', from: 'conditions' }, ways: [{ target: 'gate-clearance' }] },
  { state: 'surgeon-clearance', question: { kind: 'yes-no' }, ways: [{ target: 'gate-guardian' }] },
  { state: 'guardian-consent', question: { kind: 'yes-no' }, ways: [{ target: 'gate' }] },
  { state: 'override-reason', question: { kind: 'text', mayBeEmpty: true } },
  { state: 'usual-pain', question: { kind: 'pain' } },
  { state: 'known-signs', question: { kind: 'several', from: 'known-signs' } },
  { state: 'restrictions', question: { kind: 'several', from: 'restrictions' } },
  { state: 'plates', question: { kind: 'numbers', least: 0.1, most: 20 } },
  { state: 'harness', question: { kind: 'number', least: 0.05, most: 2, mayBeNone: true } },
  { state: 'band', question: { kind: 'band' }, ways: [{ guard: says('none'), target: 'support' }, { target: 'more-bands', actions: 'keep-band' }] },
  { state: 'more-bands', question: { kind: 'yes-no' }, ways: [{ guard: says(true), target: 'band' }, { target: 'support' }] },
  { state: 'support', question: { kind: 'yes-no' } },
  { state: 'step', question: { kind: 'number', least: 5, most: 60, mayBeNone: true } },
  { state: 'measurement', question: { kind: 'number', least: 1, most: 1500, mayBeNone: true } },
  { state: 'rung', question: { kind: 'open-choice', from: 'rungs' } },
  { state: 'max-rung', question: { kind: 'open-choice', from: 'rungs-above' } },
  { state: 'shown', question: { kind: 'several', from: 'exercises' } },
  { state: 'days', question: { kind: 'weekdays' } },
  { state: 'time', question: { kind: 'wall-time' } },
  { state: 'quiet', question: { kind: 'time-span' } },
  { state: 'second', question: { kind: 'open-choice', from: 'colleagues' } },
]

const deciding: Readonly<Record<string, FlowState>> = {
  'gate-clearance': decideBy([{ guard: has('needsClearance'), target: 'surgeon-clearance' }, { target: 'gate-guardian' }]),
  'gate-guardian': decideBy([{ guard: has('needsGuardian'), target: 'guardian-consent' }, { target: 'gate' }]),
  gate: decideBy([
    { guard: has('isRefused'), target: 'closed', actions: 'say-refused' },
    { guard: has('isLimited'), target: 'override-reason' },
    { target: 'usual-pain' },
  ]),
}

/** Going back passes over the questions that were asked only because of an answer. */
const conditional: ReadonlySet<string> = new Set(['surgeon-clearance', 'guardian-consent', 'override-reason', 'more-bands'])

function statesOf(): Record<string, FlowState> {
  const states: Record<string, FlowState> = { ...deciding }
  items.forEach(({ state, question, ways }, index) => {
    const next = items[index + 1]?.state ?? 'review'
    const before = items.slice(0, index).filter((item) => !conditional.has(item.state)).at(-1)?.state
    const answer = (ways ?? [{ target: next }]).map((way) => ({ ...way, actions: way.actions ?? 'keep' }))
    states[state] = ask(question, `enrolment.${state}`, { answer, ...(before === undefined ? {} : { back: before }) })
  })
  return states
}

export const enrolment = defineFlow({
  id: 'enrolment',
  version: 1,
  initial: 'name',
  safeState: 'review',
  on: { stop: { target: 'closed', actions: 'say-left' }, close: 'closed' },
  states: {
    ...statesOf(),
    review: ask(
      {
        kind: 'choice',
        options: [
          { value: 'enrol', words: 'enrolment.review.enrol', saidBy: ['done', 'ready'] },
          { value: 'again', words: 'enrolment.review.again' },
          { value: 'leave', words: 'enrolment.review.leave' },
        ],
      },
      'enrolment.review',
      {
        answer: [
          { guard: (guarded) => says('enrol')(guarded) && has('isPlanUsable')(guarded), target: 'closed', actions: 'enrol' },
          { guard: says('enrol'), target: 'review', actions: 'say-plan-problems' },
          { guard: says('again'), target: 'name', actions: 'start-again' },
          { target: 'closed', actions: 'say-left' },
        ],
        back: 'second',
      },
    ),
    closed: final,
  },
})
