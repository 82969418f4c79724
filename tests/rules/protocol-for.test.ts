import { describe, expect, it } from 'vitest'
import type { Plan } from '#src/domain/plan.ts'
import { protocolFor, withOverrides } from '#src/rules/protocol-for.ts'
import { extensionPlan, novice } from '#tests/support/sample-chain.ts'
import { shippedProtocol } from '#tests/support/shipped-protocols.ts'

describe('the thresholds in force', () => {
  it('are the very protocol where the plan sets none', () => {
    expect(protocolFor(extensionPlan, novice())).toBe(novice())
  })

  it('are worked out once for a plan, and anew for another protocol', () => {
    const plan: Plan = { ...extensionPlan, thresholds: { running: { amber: 2 } } }
    const first = protocolFor(plan, novice())
    expect(first.running).toEqual({ ...novice().running, amber: 2 })
    expect(protocolFor(plan, novice())).toBe(first)
    expect(protocolFor(plan, shippedProtocol('long-standing-neck-pain')).id).toBe('long-standing-neck-pain')
  })

  it('take a list as a whole and leave the protocol as it was', () => {
    const before = structuredClone(novice())
    const inForce = withOverrides(novice(), { repetitions: { range: [6, 7] }, sets: { extension: 2 } })
    expect(inForce).toEqual({
      ...before,
      repetitions: { ...before.repetitions, range: [6, 7] },
      sets: { ...before.sets, extension: 2 },
    })
    expect(novice()).toEqual(before)
  })

  it('may turn a yes into a no', () => {
    expect(withOverrides(novice(), { progress: { isAutomatic: false } }).progress).toEqual({ isAutomatic: false })
  })
})
