import { describe, expect, it } from 'vitest'
import { judgeMorning } from '#src/rules/morning.ts'
import { novice } from '../support/sample-chain.ts'

const protocol = novice()

describe('the morning after', () => {
  it.each([
    ['fine up to one above usual', 2, null, 1, { kind: 'fine', pain: 2, usual: 1 }],
    ['bad from two above usual', 3, null, 1, { kind: 'bad', pain: 3, usual: 1 }],
    ['fine at none', 0, null, 1, { kind: 'fine', pain: 0, usual: 1 }],
    ['fine at one without usual pain', 1, null, 0, { kind: 'fine', pain: 1, usual: 0 }],
    ['bad at two without usual pain', 2, null, 0, { kind: 'bad', pain: 2, usual: 0 }],
    ['fine at five with a usual pain of four', 5, null, 4, { kind: 'fine', pain: 5, usual: 4 }],
    ['bad at six with a usual pain of four', 6, null, 4, { kind: 'bad', pain: 6, usual: 4 }],
    ['missing without an answer', null, null, 1, { kind: 'missing' }],
    ['missing where only a fine "worst since" is known', null, 2, 1, { kind: 'missing' }],
    ['bad where only a bad "worst since" is known', null, 3, 1, { kind: 'bad', pain: 3, usual: 1 }],
    ['bad by a worse "worst since"', 1, 4, 1, { kind: 'bad', pain: 4, usual: 1 }],
    ['no better by a better "worst since"', 3, 0, 1, { kind: 'bad', pain: 3, usual: 1 }],
    ['fine with the worse of two fine answers', 0, 2, 1, { kind: 'fine', pain: 2, usual: 1 }],
  ] as const)('is %s', (_, morning, worstSince, usual, expected) => {
    expect(judgeMorning(morning, worstSince, usual, protocol)).toEqual(expected)
  })

  it('is not bad for want of an answer, however strict the protocol', () => {
    const strict = { ...protocol, morning: { badAboveUsualBy: 1 } }
    expect([judgeMorning(null, null, 0, strict), judgeMorning(0, null, 0, strict), judgeMorning(null, 0, 0, strict)].map(({ kind }) => kind)).toEqual(['missing', 'fine', 'missing'])
  })
})
