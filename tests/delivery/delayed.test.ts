// An alert that its network does not take within a minute is told to the document that owes it, so that somebody else is asked.
import { describe, expect, it } from 'vitest'
import type { Urgency } from '#src/domain/message.ts'
import { openBench, reopenAfterKill } from '#tests/support/delivery-bench.ts'
import { inbound, send, type Respond } from '#tests/support/diary-handler.ts'
import { diskError } from '#tests/support/fragile-disk.ts'
import { later } from '#tests/support/scripted-channel.ts'

const second = 1000

/** A message such as `alert:ann` makes the document send just that. */
const order: Respond = (event) => {
  if (event.kind !== 'said') return {}
  const [urgency = '', to = ''] = event.text.split(':')
  return { effects: [send(event, to, event.id, urgency as Urgency)] }
}

const lineOfAlert = '1/1 delayed'

describe('an alert whose network fails', () => {
  it('is told as delayed once, 60 s after it was owed, and is tried on until it goes out', async () => {
    const bench = await openBench({ respond: order })
    bench.channel.answer = () => later(0)
    await bench.delivery.receive(inbound('1', 'ada', 'alert:ann'))
    await bench.clock.advance(59_999)
    const before = await bench.lines('chart-ada')
    await bench.clock.advance(1)
    const atOnce = await bench.lines('chart-ada')
    await bench.clock.advance(600 * second)
    bench.channel.answer = () => ({ kind: 'sent', ref: null })
    await bench.clock.advance(60 * second)
    await bench.delivery.idle()
    expect([before, atOnce, await bench.lines('chart-ada')]).toEqual([['alert:ann'], ['alert:ann', lineOfAlert], ['alert:ann', lineOfAlert]])
    expect(bench.channel.texts('ann')).toEqual(['1'])
    expect(bench.log.events().filter((event) => event === 'alert-delayed')).toEqual(['alert-delayed'])
  })

  it('is told as delayed while the network asks for longer patience', async () => {
    const bench = await openBench({ respond: order })
    bench.channel.answer = () => later(900 * second)
    await bench.delivery.receive(inbound('1', 'ada', 'alert:ann'))
    await bench.clock.advance(60 * second)
    expect({ lines: await bench.lines('chart-ada'), tries: bench.channel.tried.length }).toEqual({ lines: ['alert:ann', lineOfAlert], tries: 1 })
  })

  it('is told as delayed where it came to somebody held back already', async () => {
    const bench = await openBench({ respond: order })
    bench.channel.answer = () => later(900 * second)
    await bench.delivery.receive(inbound('0', 'bob', 'reply:ann'))
    await bench.delivery.idle()
    await bench.delivery.receive(inbound('1', 'ada', 'alert:ann'))
    await bench.clock.advance(60 * second)
    expect([await bench.lines('chart-ada'), await bench.lines('chart-bob')]).toEqual([['alert:ann', lineOfAlert], ['reply:ann']])
  })

  it('is not told where it goes out within the minute, nor is anything but an alert ever', async () => {
    const bench = await openBench({ respond: order })
    bench.channel.answer = ({ address }, number) => (address === 'ann' && number > 4 ? { kind: 'sent', ref: null } : later(0))
    await bench.delivery.receive(inbound('1', 'ada', 'alert:ann'))
    await bench.delivery.receive(inbound('2', 'bob', 'reply:ben'))
    await bench.clock.advance(600 * second)
    expect(bench.channel.texts()).toEqual(['1'])
    expect([await bench.lines('chart-ada'), await bench.lines('chart-bob')]).toEqual([['alert:ann'], ['reply:ben']])
  })

  it('is told to its document even if the store is away at that moment', async () => {
    const bench = await openBench({ respond: order })
    bench.channel.answer = () => later(0)
    await bench.delivery.receive(inbound('1', 'ada', 'alert:ann'))
    bench.disk.beforePut = () => {
      throw diskError('EIO')
    }
    await bench.clock.advance(62 * second)
    const whileAway = await bench.lines('chart-ada')
    bench.disk.beforePut = () => undefined
    await bench.clock.advance(2 * second)
    expect([whileAway, await bench.lines('chart-ada')]).toEqual([['alert:ann'], ['alert:ann', lineOfAlert]])
  })

  it('is told only once across a restart', async () => {
    const respond = order
    const bench = await openBench({ respond })
    bench.channel.answer = () => later(0)
    await bench.delivery.receive(inbound('1', 'ada', 'alert:ann'))
    await bench.clock.advance(61 * second)
    const next = await reopenAfterKill(bench, { respond })
    next.channel.answer = () => later(0)
    await next.clock.advance(120 * second)
    expect(await next.lines('chart-ada')).toEqual(['alert:ann', lineOfAlert])
  })
})
