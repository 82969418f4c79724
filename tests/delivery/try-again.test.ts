// A network that is heard again is tried at once: what it has not taken does not wait for the end of its patience.
import { describe, expect, it } from 'vitest'
import type { Urgency } from '#src/domain/message.ts'
import { openBench } from '#tests/support/delivery-bench.ts'
import { documentId, inbound, send, type Respond } from '#tests/support/diary-handler.ts'
import { later } from '#tests/support/scripted-channel.ts'

const second = 1000
const sent = { kind: 'sent', ref: null } as const

/** A message such as `alert:ann` makes the document send just that. */
const order: Respond = (event) => {
  if (event.kind !== 'said') return {}
  const [urgency = '', to = ''] = event.text.split(':')
  return { effects: [send(event, to, event.id, urgency as Urgency)] }
}

async function openWaiting(afterMs: number, ...orders: readonly string[]) {
  const bench = await openBench({ respond: order })
  bench.channel.answer = () => later(afterMs)
  for (const [index, text] of orders.entries()) await bench.delivery.receive(inbound(String(index), 'ada', text))
  await bench.clock.advance(1000 * second)
  await bench.delivery.idle()
  bench.channel.answer = () => sent
  return bench
}

describe('a network that is heard again', () => {
  it('is tried at once, the most urgent first, and what had waited is told', async () => {
    const bench = await openWaiting(0, 'reply:ann', 'alert:ben')
    const before = bench.channel.texts()
    const unsent = bench.delivery.tryAgain(bench.channel.name)
    await bench.delivery.idle()
    const tried = bench.channel.tried.length

    expect(before).toEqual([])
    expect(unsent.map(({ document }) => document)).toEqual([documentId('chart-ada'), documentId('chart-ada')])
    expect(bench.channel.texts()).toEqual(['1', '0'])
    expect(bench.delivery.tryAgain(bench.channel.name)).toEqual([])
    expect(bench.channel.tried.length).toBe(tried)
  })

  it('is not tried before the time that it has asked for itself', async () => {
    const bench = await openWaiting(1500 * second, 'alert:ann')
    bench.delivery.tryAgain(bench.channel.name)
    await bench.clock.advance(499 * second)
    const early = bench.channel.texts()
    await bench.clock.advance(second)
    await bench.delivery.idle()

    expect(early).toEqual([])
    expect(bench.channel.texts()).toEqual(['0'])
  })

  it('and fails again is given time anew, beginning with the shortest', async () => {
    const bench = await openWaiting(0, 'reply:ann')
    bench.channel.answer = () => later(0)
    bench.delivery.tryAgain(bench.channel.name)
    await bench.delivery.idle()
    const tried = bench.channel.tried.length
    await bench.clock.advance(second)
    expect(bench.channel.tried.length).toBe(tried + 1)
  })

  it('is none of another network’s business', async () => {
    const bench = await openWaiting(0, 'alert:ann')
    expect(bench.delivery.tryAgain('another')).toEqual([])
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual([])
  })
})
