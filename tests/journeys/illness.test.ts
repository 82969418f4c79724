// Signs of general illness: one is told, two lock, one locks with past cancer. And the screen of whoever had an operation.
import { describe, expect, it } from 'vitest'
import { inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'
import type { Plan } from '#src/domain/plan.ts'

function withConditions(...conditions: readonly string[]): Plan {
  return { ...extensionPlan, screening: { ...extensionPlan.screening, conditions, hasSurgeonClearance: true } }
}

/** Monday, 18:00, at the safety check. */
function atScreen(plan: Plan = extensionPlan): JoinedClinic {
  const clinic = new JoinedClinic({ plan })
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.client.press('Ready').skip()
  clinic.maren.skip()
  return clinic
}

const illness = 'Fever, feeling ill, chest pain or breathless'
const told = (clinic: JoinedClinic): readonly unknown[] => clinic.entries('alert').map(({ data }) => [data.level, data.sign])

describe('one sign of general illness', () => {
  it('is told and locks nothing, told twice over as well', () => {
    const clinic = inFirstSet()
    clinic.client.write('I have a fever')
    clinic.rig.pass({ minutes: 1 })
    clinic.client.write('I have a fever')
    expect([clinic.chart().lock, told(clinic)]).toEqual([null, [['routine', null], ['routine', null]]])
  })

  it.each(['I have a fever', 'I am losing weight without trying'])('with past cancer locks: %s', (words) => {
    const clinic = inFirstSet({ plan: withConditions('past-cancer') })
    clinic.client.write(words)
    expect(clinic.chart().lock?.level).toBe('urgent')
    expect(clinic.maren.read()).toMatch(/^⚠ URGENT, same day – Orla Tiernan\n.* \(with a history of: Past cancer\)\n/)
  })

  it('with past cancer locks when it is pressed', () => {
    const clinic = atScreen(withConditions('past-cancer'))
    clinic.client.press(illness, 'Fever')
    expect(clinic.chart().lock?.level).toBe('urgent')
  })
})

describe('two signs of general illness', () => {
  it('told days apart lock, and the alert says what was told before', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('I have a fever')
    clinic.rig.moveTo('2026-01-09T12:00:00Z')
    clinic.maren.skip()
    clinic.client.write('I am losing weight without trying')
    expect(clinic.chart().lock?.level).toBe('urgent')
    expect(clinic.maren.read()).toMatch(/^⚠ URGENT, same day – Orla Tiernan\nTwo signs of general illness \(with, told before: Fever\)\nClient’s words: “I am losing weight/)
  })

  it('pressed one after the other lock', () => {
    const clinic = atScreen()
    clinic.client.press(illness, 'Fever')
    expect(clinic.chart().lock).toBeNull()
    clinic.client.press(illness, 'Feeling ill')
    expect(clinic.chart().lock?.level).toBe('urgent')
  })

  it.each([
    ['2026-01-19T12:00:00Z', 'urgent'],
    ['2026-01-20T12:00:00Z', undefined],
  ])('from Monday the fifth count together up to the fourteenth day after, at %s: %s', (at, level) => {
    const clinic = new JoinedClinic()
    clinic.client.write('I have a fever')
    clinic.rig.moveTo(at)
    clinic.client.write('I am losing weight without trying')
    expect(clinic.chart().lock?.level).toBe(level)
  })

  it('begin to count anew once a therapist has cleared the lock', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('I have a fever', 'I am losing weight without trying')
    clinic.maren.press('Clear the lock …').write('1', 'seen today', '1')
    expect(clinic.chart().lock).toBeNull()
    clinic.client.write('I am losing weight without trying')
    expect(clinic.chart().lock).toBeNull()
  })
})

describe('the screen', () => {
  const wound = 'A change at the wound or scar of your operation'

  it('asks about the wound whoever had neck surgery, and a change there locks', () => {
    const clinic = atScreen(withConditions('neck-surgery'))
    clinic.client.press(wound, 'A change at a wound after an operation')
    expect(clinic.chart().lock?.level).toBe('urgent')
  })

  it('asks nobody else about one', () => {
    const clinic = atScreen()
    const labels = clinic.client.messages.at(-1)?.buttons.map(({ label }) => label)
    expect(labels).toContain(illness)
    expect(labels).not.toContain(wound)
  })

  const change = 'New illness, medicine, operation or pregnancy'
  /** Whether the session that now begins asks for a change of health as well, which is what makes the screen a full one. */
  function isFull(clinic: JoinedClinic): boolean {
    if (clinic.asks === 'session.ready') clinic.client.press('Ready')
    else clinic.client.write('ready')
    return clinic.client.messages.at(-1)?.buttons.some(({ label }) => label === change) === true
  }

  it.each([
    ['before the first session', (_clinic: JoinedClinic) => undefined, '2026-01-05', true],
    ['not two days later', trainOn('2026-01-05'), '2026-01-07', false],
    ['not 14 days after the last session', trainOn('2026-01-05'), '2026-01-19', false],
    ['more than 14 days after it', trainOn('2026-01-05'), '2026-01-20', true],
    ['not before four weeks', trainOn('2026-01-05', '2026-01-16', '2026-01-30'), '2026-02-01', false],
    ['after four weeks', trainOn('2026-01-05', '2026-01-16', '2026-01-30'), '2026-02-02', true],
    ['after a lock', lockAndClear, '2026-01-07', true],
  ])('is asked in full %s', (_when, before, on, full) => {
    const clinic = new JoinedClinic()
    before(clinic)
    clinic.rig.moveTo(`${on}T18:05:00Z`)
    expect(isFull(clinic)).toBe(full)
  })
})

function trainOn(...dates: readonly string[]): (clinic: JoinedClinic) => void {
  return (clinic) => {
    for (const date of dates) {
      clinic.rig.moveTo(`${date}T18:00:00Z`)
      clinic.train()
    }
  }
}

function lockAndClear(clinic: JoinedClinic): void {
  trainOn('2026-01-05')(clinic)
  clinic.client.write('my arm went numb')
  clinic.maren.press('Clear the lock …').write('1', 'seen today', '1')
}
