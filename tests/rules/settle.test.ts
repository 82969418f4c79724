import { describe, expect, it } from 'vitest'
import type { Reason } from '#src/domain/decision.ts'
import { noRuns, type Runs } from '#src/rules/decide.ts'
import { newLadderState, type LadderState } from '#src/rules/ladder-state.ts'
import type { Severity } from '#src/rules/judge-session.ts'
import type { Morning } from '#src/rules/morning.ts'
import { settle, type Settled } from '#src/rules/settle.ts'
import { chainFor, extensionPlan, novice, placeNamed } from '../support/sample-chain.ts'
import { cleanJudgement, fineMorning } from './reports.ts'

const protocol = novice()
const chain = chainFor(extensionPlan)
const bad: Morning = { kind: 'bad', pain: 3, usual: 1 }
const gate: Reason = { rule: 'rung-needs-approval', numbers: { rung: 4 } }

interface Given {
  readonly severity?: Severity
  readonly morning?: Morning
  readonly runs?: Partial<Runs>
  readonly state?: Partial<LadderState>
  readonly gates?: readonly Reason[]
  readonly closed?: readonly number[]
}

function stateAt(place: string, { runs = {}, state = {} }: Given): LadderState {
  return { ...newLadderState(placeNamed(chain, place)), ...state, runs: { ...noRuns, ...runs } }
}

function settled(place: string, given: Given = {}): Settled {
  const { severity = 'clean', morning = fineMorning, gates = [], closed = [] } = given
  return settle({
    chain,
    state: stateAt(place, given),
    judgement: { ...cleanJudgement, severity },
    morning,
    gates,
    protocol,
    isRungOpen: (rung) => !closed.includes(rung),
  })
}

const twoRed: Given = { severity: 'red', runs: { red: 1 } }

describe('the place after a decision', () => {
  it.each<readonly [string, string, string, Given]>([
    ['progress goes one place up', '2 3 × 5 × 5 s, push 3', '2 3 × 5 × 6 s, push 3', {}],
    ['progress meets a dose again before a step in effort', '2 3 × 5 × 10 s, push 3', '2 3 × 5 × 10 s, push 3, again', {}],
    ['progress steps the effort up once met again', '2 3 × 5 × 10 s, push 3, again', '2 3 × 5 × 5 s, push 5', {}],
    ['progress enters a rung at its entry', '2 3 × 5 × 10 s, push 5, again', '3 3 × 8, 17.9 N', {}],
    ['progress at the top stays', '5 3 × 8 × 5 s, again', '5 3 × 8 × 5 s, again', {}],
    ['maintain stays', '3 3 × 10, 19.6 N', '3 3 × 10, 19.6 N', { severity: 'amber' }],
    ['maintain forgets what was met once', '3 3 × 12, 19.6 N, again', '3 3 × 12, 19.6 N', { severity: 'amber' }],
    ['a gate keeps what was met', '3 3 × 12, 25.2 N, again', '3 3 × 12, 25.2 N, again', { gates: [gate] }],
    ['ease goes down by repetitions', '3 3 × 12, 25.2 N', '3 3 × 10, 25.2 N', { severity: 'ease' }],
    ['ease goes down as far from a dose met once already', '3 3 × 12, 25.2 N, again', '3 3 × 10, 25.2 N', { severity: 'ease' }],
    ['ease goes down by hold', '2 3 × 5 × 6 s, push 3', '2 3 × 5 × 5 s, push 3', { severity: 'ease' }],
    ['ease goes down by effort where the step was one of effort', '2 3 × 5 × 5 s, push 5', '2 3 × 5 × 10 s, push 3', { severity: 'ease' }],
    ['ease goes two loads down where one is less than a tenth', '3 3 × 8, 21.3 N', '3 3 × 12, 17.9 N', { severity: 'ease' }],
    ['ease stays on the rung', '3 3 × 4, 17.9 N', '3 3 × 4, 17.9 N', { severity: 'ease' }],
    ['step back goes to the entry of the rung below', '4 3 × 12, 0.65 kg', '3 3 × 8, 17.9 N', twoRed],
    ['step back goes to the lowest dose where the rung below was not shown', '4 3 × 12, 0.65 kg', '4 3 × 4, 0.4 kg', { ...twoRed, closed: [3] }],
    ['step back goes to the lowest dose where the rung below is the therapist\'s', '2 3 × 5 × 8 s, push 5', '2 3 × 5 × 2 s, push 3', twoRed],
    ['stop stays', '3 3 × 10, 19.6 N', '3 3 × 10, 19.6 N', { severity: 'flag' }],
    ['stop goes back where a bad session ran before', '4 3 × 12, 0.65 kg', '3 3 × 8, 17.9 N', { severity: 'flag', runs: { red: 1 } }],
  ])('%s', (_, from, to, given) => {
    expect(settled(from, given).state.place).toEqual(placeNamed(chain, to))
  })
})

describe('a settled direction', () => {
  it('keeps everything else of its state', () => {
    const given: Given = { severity: 'amber', runs: { amber: 1, lowestDose: 1 } }
    const before = stateAt('3 3 × 10, 19.6 N', given)
    expect(settled('3 3 × 10, 19.6 N', given)).toEqual({
      decision: { kind: 'maintain', reasons: [] },
      state: { ...before, place: placeNamed(chain, '3 3 × 10, 19.6 N'), runs: { amber: 2, red: 0, badMornings: 0, lowestDose: 0 } },
      concerns: [],
    })
  })

  it('has no reasons of its own after a red flag', () => {
    expect(settled('3 3 × 10, 19.6 N', { severity: 'flag' }).decision).toEqual({ kind: 'stop', reasons: [] })
  })

  it('counts the sessions without progress down to none', () => {
    const left = [2, 1, 0].map((sessionsWithoutProgress) => settled('3 3 × 10, 19.6 N', { state: { sessionsWithoutProgress } }).state.sessionsWithoutProgress)
    expect(left).toEqual([1, 0, 0])
  })

  it('tells the therapist what ran, and where the way down is closed', () => {
    const reds = settled('2 3 × 5 × 8 s, push 5', { ...twoRed, morning: bad, runs: { red: 1, badMornings: 1, amber: 2 } })
    const reasons = [
      { rule: 'rung-below-closed', numbers: { rung: 2 } },
      { rule: 'red-two-running', numbers: { sessions: 2, limit: 2 } },
      { rule: 'bad-morning-twice', numbers: { mornings: 2, limit: 2 } },
      { rule: 'amber-three-running', numbers: { sessions: 3, limit: 3 } },
      { rule: 'bad-morning', numbers: { pain: 3, usual: 1 } },
    ]
    expect(reds.decision).toEqual({ kind: 'step back', reasons })
    expect(reds.concerns).toEqual(reasons.slice(0, 4))
  })
})

describe('a run', () => {
  const ran = (runs: Partial<Runs>, severity: Severity = 'red'): readonly string[] => settled('4 3 × 12, 0.65 kg', { severity, runs }).concerns.map((concern) => concern.rule)

  it('is told when it reaches its limit, and each time it has grown by as much again', () => {
    expect([1, 2, 3, 4, 5].map((amber) => ran({ amber }, 'amber'))).toEqual([[], ['amber-three-running'], [], [], ['amber-three-running']])
    expect([0, 1, 2, 3].map((red) => ran({ red }))).toEqual([[], ['red-two-running'], [], ['red-two-running']])
  })

  it('is not told beside a red flag, whose alert says more', () => {
    expect(ran({ red: 1, amber: 2, badMornings: 1 }, 'flag')).toEqual([])
  })
})

describe('at the lowest dose of a rung', () => {
  const lowest = '3 3 × 4, 17.9 N'

  function floor(given: Given): readonly unknown[] {
    const { state, decision, concerns } = settled(lowest, given)
    return [decision.kind, state.runs.lowestDose, state.isHeld, concerns.map((concern) => concern.rule)]
  }

  it.each<readonly [string, Given, readonly unknown[]]>([
    ['the first ease tells the therapist', { severity: 'ease' }, ['ease', 1, false, ['lowest-dose']]],
    ['the second running holds the direction', { severity: 'ease', runs: { lowestDose: 1 } }, ['ease', 2, true, ['lowest-dose']]],
    ['a step back counts as well', { ...twoRed, runs: { red: 1, lowestDose: 1 } }, ['step back', 2, true, ['lowest-dose', 'red-two-running']]],
    ['a kept dose ends the count', { severity: 'amber', runs: { lowestDose: 1 } }, ['maintain', 0, false, []]],
    ['progress ends the count', { runs: { lowestDose: 1 } }, ['progress', 0, false, []]],
    ['a red flag leaves the count', { severity: 'flag', runs: { lowestDose: 1 } }, ['stop', 1, false, []]],
    ['what is held stays held', { state: { isHeld: true } }, ['progress', 0, true, []]],
  ])('%s', (_, given, expected) => {
    expect(floor(given)).toEqual(expected)
  })

  it('says how often, and of how many', () => {
    expect(settled(lowest, { severity: 'ease', runs: { lowestDose: 1 } }).decision.reasons).toEqual([{ rule: 'lowest-dose', numbers: { sessions: 2, limit: 2 } }])
  })

  it('does not count one place above it', () => {
    expect(settled('3 3 × 5, 17.9 N', { severity: 'ease', runs: { lowestDose: 1 } }).state.runs.lowestDose).toBe(0)
  })
})
