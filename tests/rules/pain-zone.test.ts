import { describe, expect, it } from 'vitest'
import { beforeSession } from '#src/rules/before-session.ts'
import { painZone } from '#src/rules/pain-zone.ts'
import { novice } from '../support/sample-chain.ts'

const protocol = novice()
const scale = Array.from({ length: 11 }, (_, pain) => pain)

/** A letter for each pain from 0 to 10: comfortable, amber, red. */
function zones(usual: number): string {
  return scale.map((pain) => painZone(pain, usual, protocol)[0]).join('')
}

describe('the zone of a pain', () => {
  it.each([
    [0, 'cccaaarrrrr'],
    [1, 'cccaaarrrrr'],
    [2, 'cccaaarrrrr'],
    [3, 'ccccaarrrrr'],
    [4, 'cccccarrrrr'],
    [5, 'ccccccrrrrr'],
    [8, 'ccccccrrrrr'],
  ])('with a usual pain of %i is, from 0 to 10, %s', (usual, expected) => {
    expect(zones(usual)).toBe(expected)
  })

  it('follows the protocol', () => {
    const stricter = { ...protocol, pain: { ...protocol.pain, comfortableUpTo: 1, amberUpTo: 3 } }
    expect([1, 2, 3, 4].map((pain) => painZone(pain, 0, stricter))).toEqual(['comfortable', 'amber', 'amber', 'red'])
  })
})

describe('before a session', () => {
  it.each([
    ['train', 2, 0],
    ['train eased', 3, 0],
    ['train', 3, 3],
    ['train eased', 4, 3],
    ['train', 4, 4],
    ['train eased', 5, 4],
    ['no session', 6, 4],
    ['no session', 7, 0],
    ['urgent', 8, 0],
    ['urgent', 8, 4],
    ['urgent', 8, 5],
    // Eight is no more than two above a usual six.
    ['no session', 8, 6],
    ['urgent', 9, 6],
    ['urgent', 10, 7],
    ['no session', 10, 8],
  ] as const)('the answer is "%s" at pain %i with a usual pain of %i', (expected, pain, usual) => {
    expect(beforeSession(pain, usual, protocol)).toBe(expected)
  })
})
