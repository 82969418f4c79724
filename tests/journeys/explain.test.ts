// "Why", "why exactly", and what the therapist is shown of a decision.
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { readFileSync } from 'node:fs'
import type { Chart } from '#src/chart/chart.ts'
import { explainForTherapist, explainWhole } from '#src/chart/client/explain-whole.ts'
import { Draft } from '#src/chart/draft.ts'
import { flows } from '#flows/registry.ts'
import { decisions, ruleIds, type Decision, type Reason } from '#src/domain/decision.ts'
import { brandAs, type EventId } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import { ruleThresholds } from '#src/rules/rule-thresholds.ts'
import { JoinedClinic } from '#tests/support/joined-clinic.ts'
import { allDirectionsPlan, content, extensionPlan } from '#tests/support/sample-chain.ts'
import { leavesInFile, protocolIds } from '#tests/support/shipped-protocols.ts'
import { keysOf } from '#src/content/threshold-orders.ts'

function explaining(chart: Chart): Draft<Chart> {
  return new Draft(chart, { id: brandAs<EventId>('an-event'), kind: 'wake' }, 0, { content, flows })
}

/** A client of whom this was decided last. */
function decided(decision: Decision, plan: Plan = extensionPlan): Draft<Chart> {
  const clinic = new JoinedClinic({ plan })
  return explaining({ ...clinic.chart(), lastDecisions: [{ ladder: 'extension', decision }] })
}

/** Every value that a text of reasons.yaml may ask for. */
const everyNumber: Reason['numbers'] = {
  set: 2, side: 'none', pain: 3, limit: 2, red: 5, reserve: 1, usual: 1, sessions: 3, neededSessions: 6, days: 9, neededDays: 14,
  mornings: 2, rung: 3, average: 4,
}

describe('a client who asks why', () => {
  it('gets the short answer, and how to ask for the whole of it', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.begin().doSets({ pain: 3 })
    while (clinic.asks === 'session.set') clinic.doSet()
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    while (clinic.asks !== null) clinic.client.write('1')
    clinic.client.skip()
    clinic.client.write('why')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Last time: the same again. Pain in set 1 was 3 out of 10.

      For the numbers behind it, write "why exactly"."
    `)
  })

  it('gets the whole chain for "why exactly"', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.begin().doSets({ pain: 3 }, { pain: 3, moved: 'Yes' })
    while (clinic.asks === 'session.set') clinic.doSet()
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    while (clinic.asks !== null) clinic.client.write('1')
    clinic.client.skip()
    clinic.client.write('why exactly?')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Here is the whole reason. Last time: a bit easier.
      • Other parts had to help in set 2. When other parts help, the load is too much or your neck is tired. So it gets easier.
      • Pain in set 1 was 3 out of 10. Pain up to 2, or up to your usual pain, is fine. That comes from published work, not all of it on necks. Pain above 5 is too much. That comes from published work, not all of it on necks.
      • Pain in set 2 was 3 out of 10.
      So it gets a bit easier. Easier means 10% less at least, or the lowest step. That number is our choice."
    `)
  })

  it('is told before the first decision who chose the start', () => {
    const clinic = new JoinedClinic()
    clinic.client.skip()
    clinic.client.write('why exactly')
    expect(clinic.client.read()).toBe('There is no decision yet. Your therapist chose where you start and the rules that change it.')
  })

  it('hears which numbers their therapist has set', () => {
    const plan: Plan = { ...extensionPlan, thresholds: { reserve: { forProgress: 3 } } }
    const draft = decided({ kind: 'maintain', reasons: [{ rule: 'reserve-low', numbers: { set: 1, side: 'none', reserve: 2, limit: 3 } }] }, plan)
    expect(explainWhole(draft)).toMatchInlineSnapshot(`
      "Here is the whole reason. Last time: the same again.
      • There was not much left after set 1. I add more only if you could have done 3 more. Your therapist set that number for you.
      So it stays as it is."
    `)
  })

  it('hears of each movement by its name where there are several', () => {
    const draft = decided({ kind: 'progress', reasons: [{ rule: 'clean', numbers: { reserve: 2 } }] }, allDirectionsPlan)
    expect(explainWhole(draft).split('\n')[0]).toBe('Here is the whole reason for extension. Last time: one small step up.')
  })

  it('hears after time off why the dose is lower', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.train()
    clinic.rig.moveTo('2026-01-23T18:00:00Z')
    clinic.begin()
    clinic.client.skip()
    clinic.client.write('why exactly')
    expect(clinic.client.read()).toContain(
      'Before today:\n• You have not trained for 18 days, so we start a bit easier. After more than 14 days off, we start a bit easier. That comes from published work, not all of it on necks.',
    )
  })
})

describe('the therapist', () => {
  it('gets rules, numbers and sources', () => {
    const decision: Decision = {
      kind: 'ease',
      reasons: [
        { rule: 'control-lost', numbers: { set: 2, side: 'none' } },
        { rule: 'amber', numbers: { set: 1, side: 'none', pain: 3, limit: 2 } },
        { rule: 'amber', numbers: { set: 2, side: 'none', pain: 3, limit: 2 } },
      ],
    }
    const plan: Plan = { ...extensionPlan, thresholds: { ease: { atLeast: 0.125 } } }
    expect(explainForTherapist(decided(decision, plan))).toMatchInlineSnapshot(`
      "extension: Ease.
      • Control lost in set 2. [control-lost]
         – Control lost eases: with trunk swinging or neck jerking the load is too great or the neck is spent (common practice, no source).
      • Amber: pain 3 in set 1, comfortable up to 2. [amber]
         – Comfortable up to 2 of 10, or usual pain if higher. Source: Thomeé 1997, from memory: 0-2 safe; tested in knee-cap pain, not in necks.
         – Amber up to 5 of 10, red above. Source: Thomeé 1997 and Silbernagel 2007, from memory: acceptable up to 5; not tested in necks.
      • Amber: pain 3 in set 2, comfortable up to 2. [amber]
      Move: the nearest dose on the rung that is low enough, else its lowest.
         – Ease by at least 12.5%. Source: set by the therapist in the plan. Protocol: Ease by at least 10% (our choice).

      Numbers as in force now (novice)."
    `)
  })

  it('is told where nothing was decided yet', () => {
    expect(explainForTherapist(explaining(new JoinedClinic().chart()))).toBe('No decision yet: the start is the plan\'s.')
  })
})

const reasonTexts = (parse(readFileSync('content/wording/en/reasons.yaml', 'utf8')) as Record<'client' | 'therapist', Record<string, string>>)

describe.each(protocolIds)('under the protocol %s', (protocol) => {
  const plan: Plan = { ...extensionPlan, protocol }

  it.each(ruleIds)('the rule %s is explained in both readers’ words, with the sources of the file', (rule) => {
    const draft = decided({ kind: 'maintain', reasons: [{ rule, numbers: everyNumber }] }, plan)
    const [forClient, forTherapist] = [explainWhole(draft), explainForTherapist(draft)]
    const sources = ruleThresholds[rule].map((path) => String(leavesInFile(protocol).get(keysOf(path).join('.'))?.source))
    expect(reasonTexts.client[rule]).toBeDefined()
    expect(forTherapist).toContain(`[${rule}]`)
    expect(sources.filter((source) => !forTherapist.includes(`Source: ${source}.`))).toEqual([])
    // Beside the title and the move: what was answered, and what that means.
    expect(forClient.split('\n')).toHaveLength(3)
    expect(forClient.split('\n')[1]?.split('. ').length).toBeGreaterThan(1)
  })
})

describe('every move', () => {
  it.each(decisions)('is told to both: %s', (kind) => {
    const draft = decided({ kind, reasons: [{ rule: 'shaky', numbers: everyNumber }] })
    expect(explainWhole(draft).split('\n').at(-1)).toMatch(/^So /)
    expect(explainForTherapist(draft)).toMatch(/\nMove: /)
  })
})
