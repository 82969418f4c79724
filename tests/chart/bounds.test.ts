import { describe, expect, it } from 'vitest'
import { headOf } from '#src/chart/head.ts'
import { newChart } from '#src/chart/chart.ts'
import { newDesk } from '#src/chart/desk.ts'
import { mostUnsent, route } from '#src/chart/route.ts'
import { boundData, boundText, boundToken, longestData, longestText, longestToken } from '#src/chart/bounds.ts'
import { isSameDigest, digestOf } from '#src/chart/digest.ts'
import { brandAs, type DocumentId, type EventId } from '#src/domain/identifier.ts'

const from = { channel: 'rig', address: 'somebody' }
const id = brandAs<EventId>('event-1')
const invitation = { token: 'token', link: 'https://chat.example/token' }
const client = headOf(newChart(brandAs<DocumentId>('chart-00000000c11e')))
const therapist = headOf({ ...newDesk(brandAs<DocumentId>('desk-00000000aaaa'), 'en'), name: 'Maren Holt' })

describe('what comes in', () => {
  it.each([
    ['a text as long as the longest', boundText, 'x'.repeat(longestText), 'x'.repeat(longestText)],
    ['a longer text', boundText, 'x'.repeat(longestText + 9), 'x'.repeat(longestText)],
    ['a text whose last character would be cut in two', boundText, `${'x'.repeat(longestText - 1)}😀`, 'x'.repeat(longestText - 1)],
    ['a text with control characters', boundText, 'a\u0000b\u0001\nc\u007F', 'ab\nc'],
    ['a text with marks that turn it round', boundText, '\u202Enumb\u202C \u2066not\u2069', 'numb not'],
    ['a text from right to left', boundText, 'כואב לי\u200F הצוואר', 'כואב לי\u200F הצוואר'],
    ['an emoji of several parts', boundText, '👩\u200D⚕️', '👩\u200D⚕️'],
    ['data as long as the longest', boundData, 'd'.repeat(longestData), 'd'.repeat(longestData)],
    ['longer data', boundData, 'd'.repeat(longestData + 1), ''],
    ['data longer in bytes only', boundData, 'é'.repeat(longestData / 2 + 1), ''],
    ['a token as long as the longest', boundToken, 't'.repeat(longestToken), 't'.repeat(longestToken)],
    ['a longer token', boundToken, 't'.repeat(5000), 't'.repeat(longestToken + 1)],
  ])('is bounded: %s', (_what, bound, given, taken) => {
    expect(bound(given)).toBe(taken)
  })

  it('is bounded on the way to a document, whatever a network lets through', () => {
    const [text, data, token] = ['x'.repeat(100_000), 'd'.repeat(100_000), 't'.repeat(100_000)]
    const events = [
      route({ kind: 'message', id, from, text }, client, invitation).event,
      route({ kind: 'press', id, from, data }, client, invitation).event,
      route({ kind: 'join', id, from, token }, null, invitation).event,
    ]
    expect(events.map((event) => JSON.stringify(event).length < longestText + 500)).toEqual([true, true, true])
  })
})

describe('more than the network can bring answers for', () => {
  const incoming = [
    { kind: 'message', id, from, text: 'hello' },
    { kind: 'unreadable', id, from },
    { kind: 'press', id, from, data: 'p:1:yes' },
  ] as const

  it.each(incoming)('is marked as such where a client sends it: $kind', (inbound) => {
    expect(route(inbound, client, invitation, mostUnsent).event).toMatchObject({ isExcess: true })
    expect(route(inbound, client, invitation, mostUnsent - 1).event).not.toHaveProperty('isExcess')
  })

  it.each(incoming)('is never a therapist’s, whose press an alert may wait for: $kind', (inbound) => {
    expect(route(inbound, therapist, invitation, 10 * mostUnsent).event).not.toHaveProperty('isExcess')
  })
})

describe('two digests', () => {
  it('are the same or not wherever they differ, and whatever their lengths', () => {
    const digest = digestOf('an-invitation')
    const others = [`0${digest.slice(1)}`, `${digest.slice(0, -1)}-`, '', digest.slice(0, 10), `${digest}0`]
    expect(isSameDigest(digest, digestOf('an-invitation'))).toBe(true)
    expect(others.map((other) => isSameDigest(digest, other))).toEqual([false, false, false, false, false])
  })
})
