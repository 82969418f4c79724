import type { Question } from '#src/conversation/question.ts'
import { ask, decideBy, defineFlow, final, type FlowState, type Way } from './define-flow.ts'
import { both, has, says } from './guards.ts'

/** One question of the enrolment and where its answer leads when that is not the next one. */
interface Item {
  readonly state: string
  readonly question: Question
  readonly ways?: readonly Way[]
  /** Where "back" leads when that is not the question before. */
  readonly back?: readonly Way[]
}

/**
 * The questions in their order. Facts: `needsClearance`, `needsGuardian`, `isRefused`, `isLimited`, `hasTooManyKnownSigns`,
 * `hasNextKnownSign`,
 * `hasLadders`, `isFirstLadder`, `hasNextLadder`, `hasRungAbove`, `hasMeasurement`, `isImplausible`, `hasLanguages`, `isPlanUsable`.
 * The names of the states are the names under which the answers are kept; those of one ladder move to `ladder-plans` when
 * it is done.
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
  { state: 'known-signs', question: { kind: 'several', from: 'known-signs' }, ways: [{ target: 'gate-known-signs' }] },
  {
    state: 'known-sign',
    question: { kind: 'known-sign' },
    ways: [{ target: 'gate-next-known-sign', actions: 'keep-known-sign' }],
    back: [{ target: 'known-signs' }],
  },
  { state: 'restrictions', question: { kind: 'several', from: 'restrictions' } },
  { state: 'plates', question: { kind: 'numbers', least: 0.1, most: 20 } },
  { state: 'harness', question: { kind: 'number', least: 0.05, most: 2, mayBeNone: true } },
  { state: 'band', question: { kind: 'band' }, ways: [{ guard: says('none'), target: 'support' }, { target: 'more-bands', actions: 'keep-band' }] },
  { state: 'more-bands', question: { kind: 'yes-no' }, ways: [{ guard: says(true), target: 'band' }, { target: 'support' }] },
  { state: 'support', question: { kind: 'yes-no' } },
  { state: 'step', question: { kind: 'number', least: 5, most: 60, mayBeNone: true } },
  { state: 'protocol', question: { kind: 'open-choice', from: 'protocols' } },
  { state: 'ladders', question: { kind: 'several', from: 'ladders' }, ways: [{ target: 'gate-ladders' }] },
  {
    state: 'rung',
    question: { kind: 'open-choice', from: 'rungs' },
    ways: [{ target: 'gate-max-rung', actions: ['keep', 'begin-ladder'] }],
    back: [{ guard: has('isFirstLadder'), target: 'ladders' }, { target: 'rung', actions: 'reopen-ladder' }],
  },
  { state: 'max-rung', question: { kind: 'open-choice', from: 'rungs-above' } },
  { state: 'shown', question: { kind: 'several', from: 'exercises' }, ways: [{ target: 'gate-measurement' }], back: [{ target: 'rung' }] },
  {
    state: 'measurement',
    question: { kind: 'measured-force', mayBeNone: true },
    ways: [{ target: 'weighing' }],
    back: [{ target: 'shown', actions: 'forget-enrolled-measurements' }],
  },
  { state: 'days', question: { kind: 'weekdays' }, back: [{ target: 'rung', actions: 'reopen-ladder' }] },
  { state: 'time', question: { kind: 'wall-time' } },
  { state: 'quiet', question: { kind: 'time-span' } },
  { state: 'second', question: { kind: 'open-choice', from: 'colleagues' }, ways: [{ target: 'gate-language' }] },
  { state: 'language', question: { kind: 'open-choice', from: 'languages' } },
]

const deciding: Readonly<Record<string, FlowState>> = {
  'gate-clearance': decideBy([{ guard: has('needsClearance'), target: 'surgeon-clearance' }, { target: 'gate-guardian' }]),
  'gate-guardian': decideBy([{ guard: has('needsGuardian'), target: 'guardian-consent' }, { target: 'gate' }]),
  gate: decideBy([
    { guard: has('isRefused'), target: 'closed', actions: 'say-refused' },
    { guard: has('isLimited'), target: 'override-reason' },
    { target: 'usual-pain' },
  ]),
  // Each known sign is asked about in turn.
  'gate-known-signs': decideBy([
    { guard: has('hasTooManyKnownSigns'), target: 'known-signs', actions: 'say-too-many-known-signs' },
    { target: 'gate-next-known-sign', actions: 'begin-known-signs' },
  ]),
  'gate-next-known-sign': decideBy([{ guard: has('hasNextKnownSign'), target: 'known-sign' }, { target: 'restrictions' }]),
  // Each ladder is asked about in turn; a question with one possible answer is not asked.
  'gate-ladders': decideBy([{ guard: has('hasLadders'), target: 'rung', actions: 'begin-ladders' }, { target: 'ladders', actions: 'say-no-ladder' }]),
  'gate-max-rung': decideBy([{ guard: has('hasRungAbove'), target: 'max-rung' }, { target: 'shown' }]),
  'gate-measurement': decideBy([{ guard: has('hasMeasurement'), target: 'measurement' }, { target: 'gate-next-ladder', actions: 'keep-ladder' }]),
  weighing: decideBy([
    { guard: has('isImplausible'), target: 'measurement', actions: 'say-implausible' },
    { target: 'gate-measurement', actions: 'keep-measurement' },
  ]),
  // In a clinic of one language nobody is asked for it.
  'gate-language': decideBy([{ guard: has('hasLanguages'), target: 'language' }, { target: 'review' }]),
  'gate-next-ladder': decideBy([{ guard: has('hasNextLadder'), target: 'rung' }, { target: 'days' }]),
}

/** Going back passes over the questions that were asked only because of an answer. */
const conditional: ReadonlySet<string> = new Set(['surgeon-clearance', 'guardian-consent', 'override-reason', 'known-sign', 'more-bands', 'language'])

function statesOf(): Record<string, FlowState> {
  const states: Record<string, FlowState> = { ...deciding }
  items.forEach(({ state, question, ways, back }, index) => {
    const next = items[index + 1]?.state ?? 'review'
    const before = items.slice(0, index).filter((item) => !conditional.has(item.state)).at(-1)?.state
    const answer = (ways ?? [{ target: next }]).map((way) => ({ ...way, actions: way.actions ?? 'keep' }))
    const backward = back ?? (before === undefined ? undefined : [{ target: before }])
    states[state] = ask(question, `enrolment.${state}`, { answer, ...(backward === undefined ? {} : { back: backward }) })
  })
  return states
}

/** Version 1 asked about one ladder; from its first question on, what version 2 asks instead is asked. */
const sinceOneLadder: ReadonlySet<string> = new Set(['measurement', 'rung', 'max-rung', 'shown', 'days', 'time', 'quiet', 'second', 'review'])

/** A therapist enrols a client: whether they may be enrolled at all, what they train with, and the plan, read back before it counts. */
export const enrolment = defineFlow({
  id: 'enrolment',
  version: 3,
  initial: 'name',
  safeState: 'review',
  on: { stop: { target: 'closed', actions: 'say-left' }, close: 'closed' },
  // Every question of version 2 is still there; version 3 asks about each known sign, and for the client's language.
  migrate: (version, state) => (version > 2 ? null : version === 1 && sinceOneLadder.has(state) ? 'protocol' : state),
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
          { guard: both(says('enrol'), has('isPlanUsable')), target: 'closed', actions: 'enrol' },
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
