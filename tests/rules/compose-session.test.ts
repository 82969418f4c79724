import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ladderIds, type LadderId } from '#src/domain/direction.ts'
import { composeSession, type ComposedLadder, type SessionToCompose } from '#src/rules/compose-session.ts'

const most = { directions: 4, sets: 12 }

function ladder(id: LadderId, directions: number, setsPerDirection = 3, muscles: readonly string[] = []): ComposedLadder {
  return { ladder: id, directions, setsPerDirection, muscles }
}

const whole = [ladder('extension', 1), ladder('flexion', 1), ladder('lateral-flexion', 2), ladder('rotation', 2), ladder('deep-flexors', 1)]

/** The sessions of so many training days, from the first of a week of `daysAWeek`. */
function sessions(ladders: readonly ComposedLadder[], daysAWeek: number, count: number, limits = most): readonly (readonly LadderId[])[] {
  return Array.from({ length: count }, (_, index) => {
    const turn = { week: Math.floor(index / daysAWeek), day: index % daysAWeek, daysAWeek }
    return composeSession({ ladders, turn, most: limits }).ladders
  })
}

describe('the turns', () => {
  const single = (id: LadderId, sets = 3): ComposedLadder => ladder(id, 1, sets)
  const byTwo = [single('extension'), single('flexion'), single('lateral-flexion'), single('rotation'), single('deep-flexors')]

  it.each([
    ['one ladder', [single('extension')], most, [['extension']]],
    ['twelve sets', [single('extension', 6), single('flexion', 6)], most, [['extension', 'flexion']]],
    ['thirteen sets', [single('extension', 7), single('flexion', 6)], most, [['extension'], ['flexion']]],
    ['four directions', [ladder('lateral-flexion', 2), ladder('rotation', 2)], most, [['lateral-flexion', 'rotation']]],
    ['five directions', [ladder('lateral-flexion', 2), ladder('rotation', 2), single('extension')], most, [['lateral-flexion'], ['rotation', 'extension']]],
    ['every direction', whole, most, [['extension', 'flexion', 'lateral-flexion'], ['deep-flexors', 'rotation']]],
    ['five alike', byTwo, most, [['extension', 'flexion', 'lateral-flexion'], ['deep-flexors', 'rotation']]],
    [
      'five alike, two directions a session',
      byTwo,
      { directions: 2, sets: 12 },
      [['extension', 'flexion'], ['lateral-flexion', 'rotation'], ['deep-flexors']],
    ],
  ])('%s: few sessions, as even as the order of the plan allows', (_, ladders, limits, expected) => {
    expect(sessions(ladders, 7, expected.length, limits)).toEqual(expected)
    expect(composeSession({ ladders, turn: { week: 0, day: 0, daysAWeek: 7 }, most: limits }).turns).toBe(expected.length)
  })

  it('of nothing are none', () => {
    expect(composeSession({ ladders: [], turn: { week: 1, day: 0, daysAWeek: 3 }, most })).toEqual({ turns: 0, ladders: [] })
  })

  it('of three days a week alternate from day to day and over the weeks', () => {
    const [first, second] = sessions(whole, 3, 2)
    expect(sessions(whole, 3, 7)).toEqual([first, second, first, second, first, second, first])
  })

  it('of an even number of days change places each week, so that no weekday keeps its ladders', () => {
    const [first, second] = sessions(whole, 4, 2)
    expect(sessions(whole, 4, 9)).toEqual([first, second, first, second, second, first, second, first, first])
  })

  it('of three in three days a week move on by one each week', () => {
    const limits = { directions: 2, sets: 12 }
    const [first, second, third] = sessions(byTwo, 3, 3, limits)
    expect(sessions(byTwo, 3, 9, limits)).toEqual([first, second, third, second, third, first, third, first, second])
  })

  it('come round before the fixed Monday as after it', () => {
    const at = (week: number): readonly LadderId[] => composeSession({ ladders: whole, turn: { week, day: 0, daysAWeek: 3 }, most }).ladders
    expect(at(-3)).toEqual(at(1))
    expect(at(-4)).toEqual(at(2))
  })
})

describe('the order of work', () => {
  const order = (ladders: readonly ComposedLadder[]): readonly LadderId[] =>
    composeSession({ ladders, turn: { week: 0, day: 0, daysAWeek: 1 }, most: { directions: 9, sets: 99 } }).ladders

  it.each([
    ['the deep flexors come first', [ladder('extension', 1), ladder('deep-flexors', 1)], ['deep-flexors', 'extension']],
    ['nothing shared keeps the order of the plan', [ladder('rotation', 2), ladder('flexion', 1)], ['rotation', 'flexion']],
    [
      'neighbours share as few muscles as can be',
      [ladder('extension', 1, 3, ['a', 'b']), ladder('flexion', 1, 3, ['a', 'b']), ladder('rotation', 2, 3, ['c'])],
      ['extension', 'rotation', 'flexion'],
    ],
    [
      'one muscle shared is less than two',
      [ladder('extension', 1, 3, ['a', 'b']), ladder('flexion', 1, 3, ['a', 'b', 'c']), ladder('rotation', 2, 3, ['a', 'c'])],
      ['extension', 'rotation', 'flexion'],
    ],
    [
      'what the deep flexors tire comes later',
      [ladder('flexion', 1, 3, ['a']), ladder('extension', 1, 3, ['b']), ladder('deep-flexors', 1, 3, ['a'])],
      ['deep-flexors', 'extension', 'flexion'],
    ],
  ])('%s', (_, ladders, expected) => {
    expect(order(ladders)).toEqual(expected)
  })
})

describe('whatever the plan', () => {
  const anyLadders = fc
    .shuffledSubarray([...ladderIds])
    .chain((ids) =>
      fc.tuple(
        ...ids.map((id) =>
          fc.record({
            ladder: fc.constant(id),
            directions: fc.constantFrom(1, 2),
            setsPerDirection: fc.integer({ min: 1, max: 6 }),
            muscles: fc.subarray(['a', 'b', 'c', 'd']),
          }),
        ),
      ),
    )
  const anyTurn = fc.record({ week: fc.integer({ min: -9, max: 9 }), daysAWeek: fc.integer({ min: 1, max: 7 }) })
    .chain(({ week, daysAWeek }) => fc.record({ week: fc.constant(week), daysAWeek: fc.constant(daysAWeek), day: fc.nat(daysAWeek - 1) }))
  const anySession: fc.Arbitrary<SessionToCompose> = fc.record({ ladders: anyLadders, turn: anyTurn, most: fc.constant(most) })

  function isInside(ladders: readonly ComposedLadder[], ids: readonly LadderId[]): boolean {
    const own = ladders.filter((one) => ids.includes(one.ladder))
    const directions = own.reduce((sum, one) => sum + one.directions, 0)
    const sets = own.reduce((sum, one) => sum + one.directions * one.setsPerDirection, 0)
    return directions <= most.directions && sets <= most.sets
  }

  it('a session keeps to four directions and twelve sets', () => {
    fc.assert(fc.property(anySession, (input) => isInside(input.ladders, composeSession(input).ladders)))
  })

  it('every ladder comes once a cycle, and equally often in a week that holds whole cycles', () => {
    fc.assert(
      fc.property(anyLadders, fc.integer({ min: 1, max: 7 }), fc.nat(30), (ladders, daysAWeek, from) => {
        const { turns } = composeSession({ ladders, turn: { week: 0, day: 0, daysAWeek }, most })
        const isWhole = daysAWeek % turns === 0
        const start = isWhole ? Math.floor(from / daysAWeek) * daysAWeek : from
        const cycle = sessions(ladders, daysAWeek, start + turns).slice(start).flat()
        expect([...cycle].sort()).toEqual(ladders.map((one) => one.ladder).sort())
      }),
    )
  })

  it('no weekday keeps its ladders for longer than it takes every one to have its turn', () => {
    fc.assert(
      fc.property(anyTurn, anyLadders, (turn, ladders) => {
        const { turns } = composeSession({ ladders, turn, most })
        const seen = Array.from({ length: turns }, (_, later) => composeSession({ ladders, turn: { ...turn, week: turn.week + later }, most }).ladders)
        // Where turns and days share a factor without the one going into the other, a weekday sees every second group.
        fc.pre(turn.daysAWeek % turns === 0 || turns <= 3)
        expect([...new Set(seen.flat())].sort()).toEqual(ladders.map((one) => one.ladder).sort())
      }),
    )
  })

  it('follows from what is handed in alone, and not from the order in which muscles are listed', () => {
    fc.assert(
      fc.property(anySession, (input) => {
        const turned = input.ladders.map((one) => ({ ...one, muscles: one.muscles.toReversed() }))
        expect(composeSession({ ...input, ladders: turned })).toEqual(composeSession(structuredClone(input)))
      }),
    )
  })

  it('no order with the deep flexors first shares fewer muscles between neighbours', () => {
    const anyKeys = fc.array(fc.nat(99), { minLength: ladderIds.length, maxLength: ladderIds.length })
    fc.assert(
      fc.property(anySession, anyKeys, (input, keys) => {
        const { ladders } = composeSession(input)
        const keyOf = (id: LadderId): number => (id === 'deep-flexors' ? -1 : (keys[ladderIds.indexOf(id)] ?? 0))
        const other = ladders.toSorted((a, b) => keyOf(a) - keyOf(b))
        expect(ladders.indexOf('deep-flexors')).toBeLessThanOrEqual(0)
        expect(shared(input.ladders, other)).toBeGreaterThanOrEqual(shared(input.ladders, ladders))
      }),
      { numRuns: 500 },
    )
  })

  function shared(ladders: readonly ComposedLadder[], order: readonly LadderId[]): number {
    const lists = order.map((id) => ladders.find((one) => one.ladder === id)?.muscles ?? [])
    return lists.reduce((sum, muscles, index) => sum + muscles.filter((muscle) => lists[index + 1]?.includes(muscle)).length, 0)
  }

  it('a ladder that is over the limits alone stands alone, whole', () => {
    expect(sessions([ladder('extension', 1), ladder('rotation', 2, 7)], 3, 2)).toEqual([['extension'], ['rotation']])
  })
})
