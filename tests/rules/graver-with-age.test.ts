import { describe, expect, it } from 'vitest'
import { brandAs, type SignId } from '#src/domain/identifier.ts'
import type { RedFlag } from '#src/domain/triage.ts'
import { graverWithAge } from '#src/rules/graver-with-age.ts'
import { content } from '../support/sample-chain.ts'

function flagOf(sign: string): RedFlag {
  const known = content.triage.signs.find(({ id }) => id === sign)
  if (known === undefined) throw new RangeError(`no sign ${sign}`)
  return { sign: brandAs<SignId>(sign), level: known.level }
}

describe('a new fall, crash or blow', () => {
  it.each([
    [64, 'other-trauma'],
    [65, 'dangerous-trauma'],
    [80, 'dangerous-trauma'],
  ])('at %i years is taken as %s', (age, expected) => {
    expect(graverWithAge(flagOf('other-trauma'), age)).toEqual(flagOf(expected))
  })

  it('is the only sign that age makes graver', () => {
    const others = content.triage.signs.filter(({ id }) => id !== 'other-trauma').map(({ id }) => flagOf(id))
    expect(others.map((flag) => graverWithAge(flag, 90))).toEqual(others)
  })
})
