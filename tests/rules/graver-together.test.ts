// Finucane 2020: judge signs together; past cancer stands in its list [memory:high]. The effect: common practice, no source.
import { describe, expect, it } from 'vitest'
import { brandAs, type SignId } from '#src/domain/identifier.ts'
import type { AlertLevel, RedFlag } from '#src/domain/triage.ts'
import { graverTogether } from '#src/rules/graver-together.ts'
import { content } from '#tests/support/sample-chain.ts'

const { illness } = content.triage

function flag(sign: string, level: AlertLevel = 'routine'): RedFlag {
  return { sign: brandAs<SignId>(sign), level }
}

describe('a sign of general illness', () => {
  it.each<readonly [string, RedFlag, readonly string[], readonly string[], RedFlag]>([
    ['alone is told', flag('fever'), [], [], flag('fever')],
    ['told a second time is still one', flag('fever'), ['fever'], [], flag('fever')],
    ['with another told before is urgent', flag('weight-loss'), ['fever'], [], flag('two-illness-signs', 'urgent')],
    ['with itself and another told before is urgent', flag('fever'), ['fever', 'night-pain'], [], flag('two-illness-signs', 'urgent')],
    ['alone with past cancer is urgent', flag('night-pain'), [], ['past-cancer'], flag('night-pain', 'urgent')],
    ['alone with another condition is told', flag('night-pain'), [], ['osteoporosis'], flag('night-pain')],
    ['with another and past cancer is two of them', flag('night-pain'), ['fever'], ['past-cancer'], flag('two-illness-signs', 'urgent')],
  ])('%s', (_title, one, toldBefore, conditions, weighed) => {
    expect(graverTogether(one, toldBefore, conditions, illness)).toEqual(weighed)
  })

  it('is the only kind of sign that weighs more so', () => {
    const others = content.triage.signs.filter(({ id }) => !illness.signs.includes(id))
    const weighed = others.map(({ id, level }) => graverTogether({ sign: id, level }, ['fever', 'weight-loss'], ['past-cancer'], illness))
    expect(weighed).toEqual(others.map(({ id, level }) => ({ sign: id, level })))
  })
})
