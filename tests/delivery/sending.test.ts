import { describe, expect, it } from 'vitest'
import { brandAs, type EffectId } from '#src/domain/identifier.ts'
import type { Effect, Urgency } from '#src/domain/message.ts'
import type { Store } from '#src/ports/store.ts'
import { openBench } from '#tests/support/delivery-bench.ts'
import { contact, echo, inbound, send, type DiaryEvent, type Respond } from '#tests/support/diary-handler.ts'
import { diskError } from '#tests/support/fragile-disk.ts'
import { Gate } from '#tests/support/gate.ts'
import { delayStore } from '#tests/support/late-store.ts'
import { flush } from '#tests/support/manual-clock.ts'
import { later } from '#tests/support/scripted-channel.ts'

const minute = 60_000

/** A message such as `alert:ann reply:bob` makes the document send just that; texts are id and count. */
const order: Respond = (event) => {
  if (event.kind !== 'said') return {}
  const effects = event.text.split(' ').map((word, index): Effect => {
    const [urgency = '', to = ''] = word.split(':')
    return send(event, to, `${event.id}.${index + 1}`, urgency as Urgency)
  })
  return { effects }
}

function amendOf(event: DiaryEvent, of: string, to: string): Effect {
  const id = brandAs<EffectId>(`${event.id}/amend`)
  return { kind: 'amend', id, to: contact(to), of: brandAs<EffectId>(of), text: 'closed' }
}

describe('sending', () => {
  it('keeps the order of a document’s effects to one contact, one at a time', async () => {
    const bench = await openBench({ respond: order })
    bench.channel.answer = async () => {
      await flush()
      return { kind: 'sent', ref: null }
    }
    await bench.delivery.receive(inbound('1', 'ada', 'reminder:ada reply:ada alert:ada'))
    await bench.delivery.receive(inbound('2', 'ada', 'reply:ada'))
    await bench.delivery.idle()
    expect(bench.channel.texts('ada')).toEqual(['1.1', '1.2', '1.3', '2.1'])
    expect(bench.channel.mostAtOnce).toBe(1)
  })

  it('sends once what was marked while the store’s answer, read before the mark, was under way', async () => {
    const [answer, sending] = [new Gate(), new Gate()]
    const wrap = (store: Store): Store =>
      delayStore(store, 'apply', 'back', (call) => (call === 2 ? answer.opened : undefined))
    const bench = await openBench({ respond: echo, wrap })
    bench.channel.answer = async () => {
      await sending.opened
      return { kind: 'sent', ref: null }
    }
    await bench.delivery.receive(inbound('1', 'ada', 'a'))
    const second = bench.delivery.receive(inbound('2', 'ada', 'b'))
    await flush()
    sending.open()
    await flush()
    answer.open()
    await second
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['re a', 're b'])
    expect(await bench.store.documentsOwing()).toEqual([])
  })

  it('sends alerts before replies and replies before reminders across documents', async () => {
    const bench = await openBench({ respond: order })
    const gate = new Gate()
    bench.channel.answer = async () => {
      await gate.opened
      return { kind: 'sent', ref: null }
    }
    await bench.delivery.receive(inbound('first', 'a', 'reply:ann'))
    await bench.delivery.receive(inbound('reminder', 'b', 'reminder:ann'))
    await bench.delivery.receive(inbound('reply', 'c', 'reply:ann'))
    await bench.delivery.receive(inbound('alert', 'd', 'alert:ann'))
    gate.open()
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['first.1', 'alert.1', 'reply.1', 'reminder.1'])
  })

  it('sends to sixteen people of one network at once, and an alert beside them', async () => {
    const bench = await openBench({ respond: order })
    const gate = new Gate()
    bench.channel.answer = async () => {
      await gate.opened
      return { kind: 'sent', ref: null }
    }
    const people = Array.from({ length: 20 }, (_, index) => `reply:p${index + 1}`)
    await bench.delivery.receive(inbound('1', 'ada', people.join(' ')))
    await bench.delivery.receive(inbound('2', 'bob', 'alert:ann'))
    const first = bench.channel.tried.map(({ address }) => address)
    gate.open()
    await bench.delivery.idle()
    expect(first).toEqual([...people.slice(0, 16).map((word) => word.slice(6)), 'ann'])
    expect(bench.channel.taken.length).toBe(21)
  })
})

describe('a network that says later', () => {
  it('is asked again after what it said, once, in order, while others are not delayed', async () => {
    const bench = await openBench({ respond: echo })
    // Retry-After of three seconds, as a Bot API server answers with 429.
    bench.channel.answer = (_sent, number) => (number === 1 ? later(3000) : { kind: 'sent', ref: null })
    await bench.delivery.receive(inbound('1', 'ada', 'a'))
    await bench.delivery.receive(inbound('2', 'ada', 'b'))
    await bench.delivery.receive(inbound('3', 'bob', 'c'))
    await bench.delivery.idle()
    const atOnce = bench.channel.texts()
    await bench.clock.advance(2999)
    const tooEarly = bench.channel.tried.length
    await bench.clock.advance(1)
    await bench.delivery.idle()
    expect({ atOnce, tooEarly }).toEqual({ atOnce: ['re c'], tooEarly: 2 })
    expect(bench.channel.texts()).toEqual(['re c', 're a', 're b'])
  })

  it('waits 1 s, 2 s, 4 s and so on up to 5 minutes for a reply, without end', async () => {
    const bench = await openBench({ respond: echo })
    const times: number[] = []
    bench.channel.answer = () => {
      times.push(bench.clock.now())
      return later(0)
    }
    await bench.delivery.receive(inbound('1', 'ada', 'a'))
    await bench.clock.advance(24 * 60 * minute)
    const gaps = times.slice(1).map((time, index) => (time - (times[index] ?? 0)) / 1000)
    expect(gaps.slice(0, 11)).toEqual([1, 2, 4, 8, 16, 32, 64, 128, 256, 300, 300])
    bench.channel.answer = () => ({ kind: 'sent', ref: null })
    await bench.clock.advance(5 * minute)
    expect(bench.channel.texts()).toEqual(['re a'])
  })

  it('that took something begins again with a second', async () => {
    const bench = await openBench({ respond: order, isStarted: false })
    bench.channel.answer = ({ text }, number) => (text === '1.2' || number <= 5 ? later(0) : { kind: 'sent', ref: null })
    await bench.delivery.receive(inbound('1', 'ada', 'reply:ann reply:ann'))
    await bench.clock.advance(31_000)
    expect({ sent: bench.channel.texts(), waits: bench.clock.waits[0] }).toEqual({ sent: ['1.1'], waits: 1000 })
  })

  it('is asked at least once a minute for an alert, without end', async () => {
    const bench = await openBench({ respond: order })
    const times: number[] = []
    bench.channel.answer = () => {
      times.push(bench.clock.now())
      return later(0)
    }
    await bench.delivery.receive(inbound('1', 'ada', 'alert:ann'))
    await bench.clock.advance(24 * 60 * minute)
    const gaps = times.slice(1).map((time, index) => (time - (times[index] ?? 0)) / 1000)
    expect(gaps.slice(0, 8)).toEqual([1, 2, 4, 8, 16, 32, 60, 60])
    expect(Math.max(...gaps)).toBe(60)
    expect(bench.clock.now() - (times.at(-1) ?? 0)).toBeLessThan(minute)
  })

  it('is asked sooner when an alert comes to a contact held back for longer, but not before it said', async () => {
    const bench = await openBench({ respond: order, isStarted: false })
    bench.channel.answer = () => later(0)
    await bench.delivery.receive(inbound('1', 'ada', 'reply:ann'))
    await bench.clock.advance(512_000)
    bench.channel.answer = ({ text }) => (text === '2.1' ? later(90_000) : { kind: 'sent', ref: null })
    const heldBefore = bench.clock.waits[0]
    await bench.delivery.receive(inbound('2', 'bob', 'alert:ann'))
    const heldAfter = bench.clock.waits[0]
    expect({ heldBefore, heldAfter }).toEqual({ heldBefore: 299_000, heldAfter: 59_000 })
    await bench.clock.advance(59_000)
    // The shorter waits are for telling that an alert is late.
    const heldByNetwork = bench.clock.waits.at(-1)
    await bench.delivery.receive(inbound('3', 'cem', 'alert:ann'))
    expect({ heldByNetwork, stillHeld: bench.clock.waits.at(-1) }).toEqual({ heldByNetwork: 90_000, stillHeld: 90_000 })
  })

  it('is not waited for longer because the clock was set back', async () => {
    const bench = await openBench({ respond: order, isStarted: false })
    bench.channel.answer = () => later(30_000)
    await bench.delivery.receive(inbound('1', 'ada', 'reply:ann'))
    await bench.delivery.idle()
    bench.clock.jump(-24 * 60 * minute)
    await bench.delivery.receive(inbound('2', 'bob', 'alert:ann'))
    expect(bench.clock.waits[0]).toBe(30_000)
  })

  it('loses a reminder that could not go out for two hours, and keeps the rest', async () => {
    const bench = await openBench({ respond: order })
    bench.channel.answer = () => later(0)
    await bench.delivery.receive(inbound('1', 'ada', 'reminder:ann reply:ann'))
    await bench.clock.advance(121 * minute)
    bench.channel.answer = () => ({ kind: 'sent', ref: null })
    await bench.clock.advance(5 * minute)
    expect(bench.channel.texts()).toEqual(['1.2'])
    expect(bench.log.events()).toEqual(['send-lapsed'])
    expect(await bench.lines('chart-ada')).toEqual(['reminder:ann reply:ann', '1/1.1 unreminded, late'])
    expect(await bench.store.documentsOwing()).toEqual([])
  })

  it('still gets a reminder that waited for less than two hours', async () => {
    const bench = await openBench({ respond: order })
    bench.channel.answer = () => later(119 * minute)
    await bench.delivery.receive(inbound('1', 'ada', 'reminder:ann'))
    bench.channel.answer = () => ({ kind: 'sent', ref: null })
    await bench.clock.advance(119 * minute)
    expect(bench.channel.texts()).toEqual(['1.1'])
  })
})

describe('what can never arrive', () => {
  it.each([
    { result: { kind: 'unreachable' }, reason: 'unreachable' },
    { result: { kind: 'refused', code: '400' }, reason: 'refused' },
  ] as const)('is given up once as $reason, and its document is told', async ({ result, reason }) => {
    const bench = await openBench({ respond: order })
    bench.channel.answer = () => result
    await bench.delivery.receive(inbound('1', 'ada', 'reminder:ann'))
    await bench.delivery.idle()
    await bench.clock.advance(24 * 60 * minute)
    expect(bench.channel.tried.length).toBe(1)
    expect(await bench.lines('chart-ada')).toEqual(['reminder:ann', `1/1.1 ${reason}`])
    expect(await bench.store.documentsOwing()).toEqual([])
  })

  it('lets the document turn to somebody else', async () => {
    const respond: Respond = (event, diary, at) => {
      if (event.kind !== 'undeliverable') return order(event, diary, at)
      return { effects: [send(event, 'ben', 'she is away', 'alert')] }
    }
    const bench = await openBench({ respond })
    bench.channel.answer = ({ address }) => (address === 'ann' ? { kind: 'unreachable' } : { kind: 'sent', ref: null })
    await bench.delivery.receive(inbound('1', 'ada', 'alert:ann'))
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['she is away'])
  })

  it('is what goes to a network that is not there', async () => {
    const respond: Respond = (event) =>
      event.kind === 'said' ? { effects: [send(event, 'ada', 'hello', 'reply', 'other')] } : {}
    const bench = await openBench({ respond })
    await bench.delivery.receive(inbound('1', 'ada', 'a'))
    await bench.delivery.idle()
    expect(await bench.lines('chart-ada')).toEqual(['a', '1/hello unreachable'])
    expect(bench.log.lines).toEqual([{ level: 'error', event: 'channel-missing', fields: { channel: 'other' } }])
  })

  it('is a message on which the channel throws five times; the next one goes out', async () => {
    const bench = await openBench({ respond: order })
    bench.channel.answer = ({ text }) => {
      if (text === '1.1') throw new RangeError('token and text of 1.1')
      return { kind: 'sent', ref: null }
    }
    await bench.delivery.receive(inbound('1', 'ada', 'reply:ada reply:ada'))
    await bench.clock.advance(10 * minute)
    expect(bench.channel.tried.filter(({ text }) => text === '1.1').length).toBe(5)
    expect(bench.channel.texts()).toEqual(['1.2'])
    expect(await bench.lines('chart-ada')).toEqual(['reply:ada reply:ada', '1/1.1 refused'])
  })

  it('stays owed while the store cannot take that it was given up', async () => {
    const bench = await openBench({ respond: order })
    const gate = new Gate()
    bench.channel.answer = async () => {
      await gate.opened
      return { kind: 'unreachable' }
    }
    await bench.delivery.receive(inbound('1', 'ada', 'alert:ann'))
    bench.disk.beforePut = () => {
      throw diskError('EIO')
    }
    gate.open()
    await bench.delivery.idle()
    const meanwhile = await bench.lines('chart-ada')
    bench.disk.beforePut = () => {}
    await bench.clock.advance(1000)
    expect(meanwhile).toEqual(['alert:ann'])
    expect(await bench.lines('chart-ada')).toEqual(['alert:ann', '1/1.1 unreachable'])
  })
})

describe('amending', () => {
  const respond: Respond = (event) => {
    if (event.kind !== 'said') return {}
    if (event.text === 'ask') return { effects: [send(event, 'ada', 'ask')] }
    return { effects: [amendOf(event, event.text, 'ada'), send(event, 'ada', 'next')] }
  }

  it('names the message by the network’s own reference, also right behind its sending', async () => {
    const bench = await openBench({ respond })
    const messages = [inbound('1', 'ada', 'ask'), inbound('2', 'ada', '1/ask')]
    await Promise.all(messages.map((message) => bench.delivery.receive(message)))
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['ask', 'ref-1: closed', 'next'])
  })

  it('waits for the mark that brings the reference', async () => {
    const gate = new Gate()
    const wrap = (store: Store): Store =>
      delayStore(store, 'settle', 'there', (call) => (call === 1 ? gate.opened : undefined))
    const bench = await openBench({ respond, wrap })
    await bench.delivery.receive(inbound('1', 'ada', 'ask'))
    await bench.delivery.receive(inbound('2', 'ada', '1/ask'))
    await flush()
    gate.open()
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['ask', 'ref-1: closed', 'next'])
  })

  it('is given up silently where the message is not known', async () => {
    const bench = await openBench({ respond })
    await bench.delivery.receive(inbound('1', 'ada', 'never sent'))
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['next'])
    expect(await bench.lines('chart-ada')).toEqual(['never sent'])
    expect(await bench.store.documentsOwing()).toEqual([])
  })

  it.each([{ kind: 'unreachable' }, { kind: 'refused', code: '400' }] as const)(
    'that is $kind is no event of the document',
    async (result) => {
      const bench = await openBench({ respond })
      bench.channel.answer = ({ urgency }) => (urgency === 'amend' ? result : { kind: 'sent', ref: 'r' })
      await bench.delivery.receive(inbound('1', 'ada', 'ask'))
      await bench.delivery.receive(inbound('2', 'ada', '1/ask'))
      await bench.delivery.idle()
      expect(bench.channel.texts()).toEqual(['ask', 'next'])
      expect(await bench.lines('chart-ada')).toEqual(['ask', '1/ask'])
      expect(await bench.store.documentsOwing()).toEqual([])
    },
  )
})
