import { describe, expect, it } from 'vitest'
import type { DecisionKind, Reason } from '#src/domain/decision.ts'
import { decide, noRuns, type Decided, type Deciding, type Runs } from '#src/rules/decide.ts'
import { severities, type Severity } from '#src/rules/judge-session.ts'
import type { Morning } from '#src/rules/morning.ts'
import { novice } from '../support/sample-chain.ts'
import { cleanJudgement, fineMorning } from './reports.ts'

const protocol = novice()
const missing: Morning = { kind: 'missing' }
const bad: Morning = { kind: 'bad', pain: 3, usual: 1 }
const gate: Reason = { rule: 'rung-not-shown', numbers: { rung: 3 } }

interface Given {
  readonly severity?: Severity
  readonly isComplete?: boolean
  readonly morning?: Morning
  readonly runs?: Partial<Runs>
  readonly gates?: readonly Reason[]
}

function decided({ severity = 'clean', isComplete = true, morning = fineMorning, runs = {}, gates = [] }: Given): Decided {
  const reasons: Reason[] = severity === 'clean' ? [] : [{ rule: 'amber', numbers: { set: 1, pain: 3, limit: 2 } }]
  const deciding: Deciding = { judgement: { ...cleanJudgement, severity, reasons, isComplete }, morning, runs: { ...noRuns, ...runs }, gates, protocol }
  return decide(deciding)
}

describe('a decision by severity and morning', () => {
  it.each<readonly [Severity, DecisionKind, DecisionKind, DecisionKind]>([
    ['clean', 'progress', 'maintain', 'ease'],
    ['incomplete', 'maintain', 'maintain', 'ease'],
    ['amber', 'maintain', 'maintain', 'ease'],
    ['ease', 'ease', 'ease', 'ease'],
    ['red', 'ease', 'ease', 'ease'],
    ['flag', 'stop', 'stop', 'stop'],
  ])('is, for %s, %s after a fine morning, %s after none and %s after a bad one', (severity, ...expected) => {
    expect([fineMorning, missing, bad].map((morning) => decided({ severity, morning }).kind)).toEqual(expected)
  })

  it('is held by a gate when clean, and keeps what was met', () => {
    expect(decided({ gates: [gate] })).toEqual({
      kind: 'maintain',
      runs: noRuns,
      goesBack: false,
      isHeldByGate: true,
      reasons: [gate, { rule: 'clean', numbers: { reserve: 2 } }],
    })
  })

  it('is not held by a gate when something else held it, or nothing did', () => {
    expect([decided({ severity: 'incomplete', gates: [gate] }), decided({})].map((one) => one.isHeldByGate)).toEqual([false, false])
  })

  it('says that the morning is missing', () => {
    expect(decided({ morning: missing }).reasons).toEqual([{ rule: 'morning-missing', numbers: {} }])
  })

  it('names what ran, then the answers, then the morning', () => {
    const { reasons } = decided({ severity: 'red', morning: bad, runs: { amber: 2, red: 1, badMornings: 1 } })
    expect(reasons).toEqual([
      { rule: 'red-two-running', numbers: { sessions: 2, limit: 2 } },
      { rule: 'bad-morning-twice', numbers: { mornings: 2, limit: 2 } },
      { rule: 'amber-three-running', numbers: { sessions: 3, limit: 3 } },
      { rule: 'amber', numbers: { set: 1, pain: 3, limit: 2 } },
      { rule: 'bad-morning', numbers: { pain: 3, usual: 1 } },
    ])
  })
})

describe('bad sessions running', () => {
  it.each<readonly [string, Given, DecisionKind]>([
    ['the second amber running is kept', { severity: 'amber', runs: { amber: 1 } }, 'maintain'],
    ['the third amber running eases', { severity: 'amber', runs: { amber: 2 } }, 'ease'],
    ['the third stays an ease where it is worse than amber', { severity: 'ease', runs: { amber: 2 } }, 'ease'],
    ['two amber do not ease an incomplete third', { severity: 'incomplete', runs: { amber: 2 } }, 'maintain'],
    ['two amber do not hold a clean third', { runs: { amber: 2 } }, 'progress'],
    ['the first red eases', { severity: 'red' }, 'ease'],
    ['the second red running steps back', { severity: 'red', runs: { red: 1 } }, 'step back'],
    ['one red before does not step an ease back', { severity: 'ease', runs: { red: 1 } }, 'ease'],
    ['the second bad morning running steps back, however clean the session', { morning: bad, runs: { badMornings: 1 } }, 'step back'],
    ['a missing morning is no second bad one', { morning: missing, runs: { badMornings: 1 } }, 'maintain'],
    ['a missing morning is no third bad one', { morning: missing, runs: { badMornings: 2 } }, 'maintain'],
    ['two red do not step back an amber third with something missing', { severity: 'amber', isComplete: false, runs: { red: 2 } }, 'maintain'],
    ['three amber do not ease a fourth with something missing', { severity: 'incomplete', isComplete: false, runs: { amber: 3 } }, 'maintain'],
    ['a bad morning is no second red', { morning: bad, runs: { red: 1 } }, 'ease'],
    ['a red flag stops, whatever ran', { severity: 'flag', runs: { red: 1, badMornings: 1, amber: 2 } }, 'stop'],
  ])('%s', (_, given, expected) => {
    expect(decided(given).kind).toBe(expected)
  })

  it.each<readonly [string, Given, readonly string[]]>([
    ['from the first red', { severity: 'red' }, []],
    ['from the second red', { severity: 'red', runs: { red: 1 } }, ['red-two-running']],
    ['from an amber session after two red, with something missing', { severity: 'amber', isComplete: false, runs: { red: 2 } }, []],
    ['from the first bad morning', { morning: bad }, []],
    ['from the second bad morning', { morning: bad, runs: { badMornings: 1 } }, ['bad-morning-twice']],
    ['from a missing morning after two bad ones', { morning: missing, runs: { badMornings: 2 } }, []],
    ['from the second amber', { severity: 'amber', runs: { amber: 1 } }, []],
    ['from the third amber', { severity: 'amber', runs: { amber: 2 } }, ['amber-three-running']],
    ['from a session after three amber, with something missing', { severity: 'incomplete', isComplete: false, runs: { amber: 3 } }, []],
  ])('are named %s as it is due', (_, given, expected) => {
    const running = ['red-two-running', 'bad-morning-twice', 'amber-three-running']
    expect(decided(given).reasons.map(({ rule }) => rule).filter((rule) => running.includes(rule))).toEqual(expected)
  })
})

describe('the count of bad sessions', () => {
  const before = { amber: 1, red: 1, badMornings: 1, lowestDose: 1 }
  it.each<readonly [string, Given, Runs]>([
    ['ends with a clean session and a fine morning', {}, { amber: 0, red: 0, badMornings: 0, lowestDose: 1 }],
    ['goes on where a morning is missing', { morning: missing }, { amber: 1, red: 0, badMornings: 1, lowestDose: 1 }],
    ['goes on where answers are missing', { severity: 'incomplete', isComplete: false }, { amber: 1, red: 1, badMornings: 0, lowestDose: 1 }],
    ['of amber grows by amber, and that of red ends', { severity: 'amber' }, { amber: 2, red: 0, badMornings: 0, lowestDose: 1 }],
    ['of amber grows by anything worse', { severity: 'ease' }, { amber: 2, red: 0, badMornings: 0, lowestDose: 1 }],
    ['of both grows by red', { severity: 'red' }, { amber: 2, red: 2, badMornings: 0, lowestDose: 1 }],
    ['of amber and mornings grows by a bad morning alone', { morning: bad }, { amber: 2, red: 0, badMornings: 2, lowestDose: 1 }],
    ['of everything grows by a red flag, which leaves the rest unasked', { severity: 'flag', morning: missing }, { amber: 2, red: 2, badMornings: 2, lowestDose: 1 }],
  ])('%s', (_, given, expected) => {
    expect(decided({ ...given, runs: before }).runs).toEqual(expected)
  })

  it('shows under a red flag that it goes back as well', () => {
    const goesBack = [{}, { red: 1 }, { badMornings: 1 }, { amber: 2 }].map((runs) => decided({ severity: 'flag', morning: missing, runs }).goesBack)
    expect(goesBack).toEqual([false, true, true, false])
  })
})

/** Worse in one respect never gives a better decision, over every pair of severities, mornings and runs. */
describe('a worse session', () => {
  const order: readonly DecisionKind[] = ['progress', 'maintain', 'ease', 'step back', 'stop']
  const mornings = [fineMorning, missing, bad]
  const allRuns: readonly Runs[] = [0, 1, 2, 3].flatMap((amber) => [0, 1].flatMap((red) => [0, 1].map((badMornings) => ({ amber, red, badMornings, lowestDose: 0 }))))

  function rank(severity: Severity, morning: Morning, runs: Runs): number {
    return order.indexOf(decided({ severity, morning, runs }).kind)
  }

  it('is never decided better', () => {
    const wrong = allRuns.flatMap((runs) =>
      mornings.flatMap((morning) =>
        severities.slice(1).filter((severity, index) => rank(severity, morning, runs) < rank(severities[index] ?? 'clean', morning, runs)),
      ),
    )
    expect(wrong).toEqual([])
  })

  it('is never decided better for a worse morning or a longer run', () => {
    const wrong = severities.flatMap((severity) =>
      allRuns.flatMap((runs) => {
        const ranks = mornings.map((morning) => rank(severity, morning, runs))
        const longer = rank(severity, bad, { ...runs, amber: runs.amber + 1, red: runs.red + 1, badMornings: runs.badMornings + 1 })
        return ranks.some((one, index) => index > 0 && one < (ranks[index - 1] ?? 0)) || longer < (ranks[2] ?? 0) ? [{ severity, runs }] : []
      }),
    )
    expect(wrong).toEqual([])
  })
})
