import { describe, expect, it } from 'vitest'
import type { Protocol } from '#src/domain/protocol.ts'
import type { Outcome } from '#src/rules/judge-session.ts'
import { judgeSession } from '#src/rules/judge-session.ts'
import { judgeMorning } from '#src/rules/morning.ts'
import { newLadderState } from '#src/rules/ladder-state.ts'
import { progressGates } from '#src/rules/progress-gates.ts'
import { settle } from '#src/rules/settle.ts'
import { chainFor, content, extensionPlan, nameOf, placeNamed } from '#tests/support/sample-chain.ts'
import { shippedProtocol } from '#tests/support/shipped-protocols.ts'

const maintenance = shippedProtocol('maintenance-after-discharge')
const plan = { ...extensionPlan, protocol: maintenance.id }
const chain = chainFor(plan)
const held = '2 1 × 5 × 8 s, push 5'

function gatesOf(protocol: Protocol) {
  const client = { usualPain: 1, weeklyAverage: null, daysSinceReview: 0, shown: [], hasApproval: false, sessionsOnRung: 6, daysOnRung: 14 }
  return progressGates({ chain, state: newLadderState(placeNamed(chain, held)), protocol, exercises: content.exercises, ...client })
}

/** Where one session leads from a dose, and what the therapist is told. */
function after(pain: number, from = held): string {
  const report = { pain, control: 'steady', reserve: 4, finished: true } as const
  const outcome: Outcome = {
    painBefore: 1, sets: [{ side: null, number: 1, report }], isStopped: false, endedEarly: false, hasRedFlag: false, isUnmeasuredEntry: false,
  }
  const judgement = judgeSession(outcome, 1, maintenance)
  const morning = judgeMorning(1, null, 1, maintenance)
  const state = newLadderState(placeNamed(chain, from))
  const settled = settle({ chain, state, judgement, morning, gates: gatesOf(maintenance), protocol: maintenance, isRungOpen: () => true })
  const told = settled.concerns.map((concern) => concern.rule)
  return [`${settled.decision.kind}: ${nameOf(settled.state.place)}`, ...told].join('; tells ')
}

describe('maintenance', () => {
  it('is what stands in the way of progress, and only where the protocol says so', () => {
    expect(gatesOf(maintenance)).toEqual([{ rule: 'protocol-maintains', numbers: {} }])
    expect(gatesOf({ ...maintenance, progress: { isAutomatic: true } })).toEqual([])
  })

  it.each([
    ['holds the dose after a clean session', 1, `maintain: ${held}`],
    ['holds it after an amber one', 5, `maintain: ${held}`],
    ['eases after a red one and tells, since nothing raises it again by itself', 6, 'ease: 2 1 × 5 × 6 s, push 5; tells maintained-dose-lowered'],
  ])('%s', (_, pain, expected) => {
    expect(after(pain)).toBe(expected)
  })

  it('tells of no lower dose where there is none, nor where one only has to be met again', () => {
    expect(after(6, '2 1 × 5 × 2 s, push 3')).toBe('ease: 2 1 × 5 × 2 s, push 3; tells lowest-dose')
    expect(after(5, '2 1 × 5 × 10 s, push 5, again')).toBe('maintain: 2 1 × 5 × 10 s, push 5')
  })
})
