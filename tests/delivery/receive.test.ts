import { describe, expect, it } from 'vitest'
import { brandAs, type EventId } from '#src/domain/identifier.ts'
import { StoreError, type Store } from '#src/ports/store.ts'
import { openBench } from '#tests/support/delivery-bench.ts'
import { contact, documentId, echo, inbound, send, type Respond } from '#tests/support/diary-handler.ts'
import { diskError } from '#tests/support/fragile-disk.ts'
import { Gate } from '#tests/support/gate.ts'
import { delayStore } from '#tests/support/late-store.ts'
import { flush } from '#tests/support/manual-clock.ts'

describe('receiving', () => {
  it('makes one state change and one reply of the same inbound ten times at once', async () => {
    const bench = await openBench({ respond: echo })
    await Promise.all(Array.from({ length: 10 }, () => bench.delivery.receive(inbound('u1', 'ada', 'hello'))))
    await bench.delivery.idle()
    expect(await bench.lines('chart-ada')).toEqual(['hello'])
    expect(bench.channel.texts()).toEqual(['re hello'])
  })

  it('handles a number lower than the last', async () => {
    const bench = await openBench({ respond: echo })
    await bench.delivery.receive(inbound('900', 'ada', 'first'))
    await bench.delivery.receive(inbound('17', 'ada', 'second'))
    expect(await bench.lines('chart-ada')).toEqual(['first', 'second'])
  })

  it('keeps the order of one client while a slow write delays nobody else', async () => {
    const bench = await openBench({ respond: echo })
    const gate = new Gate()
    bench.disk.beforePut = (key) => (key.includes('ada') ? gate.opened : undefined)
    const slow = Promise.all(['a', 'b', 'c'].map((text) => bench.delivery.receive(inbound(text, 'ada', text))))
    await bench.delivery.receive(inbound('x', 'bob', 'x'))
    await flush()
    expect(bench.channel.texts()).toEqual(['re x'])
    gate.open()
    await slow
    await bench.delivery.idle()
    expect(await bench.lines('chart-ada')).toEqual(['a', 'b', 'c'])
    expect(bench.channel.texts('ada')).toEqual(['re a', 're b', 're c'])
  })

  it('keeps the order of one client although looking them up takes longer for the first', async () => {
    const gate = new Gate()
    const wrap = (store: Store): Store =>
      delayStore(store, 'findByContact', 'back', (call) => (call === 1 ? gate.opened : undefined))
    const bench = await openBench({ respond: echo, wrap })
    const received = ['a', 'b'].map((text) => bench.delivery.receive(inbound(text, 'ada', text)))
    await bench.delivery.receive(inbound('x', 'bob', 'x'))
    gate.open()
    await Promise.all(received)
    expect(await bench.lines('chart-ada')).toEqual(['a', 'b'])
  })

  it('confirms nothing and sends nothing before the write is durable', async () => {
    const bench = await openBench({ respond: echo })
    const gate = new Gate()
    bench.disk.beforePut = () => gate.opened
    let isConfirmed = false
    const received = bench.delivery.receive(inbound('u1', 'ada', 'hello')).then(() => {
      isConfirmed = true
    })
    await bench.clock.advance(10_000)
    expect({ isConfirmed, tried: bench.channel.tried }).toEqual({ isConfirmed: false, tried: [] })
    gate.open()
    await received
    await bench.delivery.idle()
    expect({ isConfirmed, sent: bench.channel.texts() }).toEqual({ isConfirmed: true, sent: ['re hello'] })
  })

  it('confirms without waiting for the reply to be sent', async () => {
    const bench = await openBench({ respond: echo })
    bench.channel.answer = () => new Promise(() => {})
    await bench.delivery.receive(inbound('u1', 'ada', 'hello'))
    expect(await bench.lines('chart-ada')).toEqual(['hello'])
  })

  it('routes a message behind the one that made its sender known by what that one made', async () => {
    const respond: Respond = (event) =>
      event.kind === 'said' && event.text === 'join' ? { contacts: [contact('ada'), contact('new')] } : {}
    const bench = await openBench({ respond })
    const gate = new Gate()
    bench.disk.beforePut = () => gate.opened
    const messages = [inbound('1', 'ada', 'join'), inbound('2', 'ada', 'next')]
    const received = messages.map((message) => bench.delivery.receive(message))
    gate.open()
    await Promise.all(received)
    await bench.delivery.receive(inbound('3', 'new', 'me too'))
    expect(await bench.lines('chart-ada')).toEqual(['join', 'next', 'me too'])
  })

  it('takes an event of our own by the same path', async () => {
    const bench = await openBench({ respond: (event) => ({ effects: [send(event, 'ada', 'seeded')] }) })
    const event = { kind: 'told', id: brandAs<EventId>('seed'), from: documentId('x'), told: 'y' } as const
    await Promise.all([1, 2].map(() => bench.delivery.submit(documentId('desk-1'), event)))
    await bench.delivery.idle()
    expect(await bench.lines('desk-1')).toEqual(['x told y'])
    expect(bench.channel.texts()).toEqual(['seeded'])
  })
})

describe('a store that fails', () => {
  it('is asked once more, so that one failure goes unnoticed', async () => {
    const bench = await openBench({ respond: echo })
    let failures = 1
    bench.disk.beforePut = () => {
      if (failures-- > 0) throw diskError('EIO')
    }
    await bench.delivery.receive(inbound('u1', 'ada', 'hello'))
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['re hello'])
    expect(bench.log.lines).toEqual([
      { level: 'warn', event: 'store-failed', fields: { document: 'chart-ada', code: 'unavailable' } },
    ])
  })

  it.each([
    { disk: 'ENOSPC', code: 'full' },
    { disk: 'EIO', code: 'unavailable' },
  ] as const)('rejects with $code when it fails twice, and takes the same inbound later', async ({ disk, code }) => {
    const bench = await openBench({ respond: echo })
    bench.disk.beforePut = () => {
      throw diskError(disk)
    }
    const error: unknown = await bench.delivery.receive(inbound('u1', 'ada', 'hello')).catch((reason: unknown) => reason)
    expect(error instanceof StoreError ? error.code : error).toBe(code)
    expect({ tried: bench.channel.tried, parked: bench.parked }).toEqual({ tried: [], parked: [] })
    bench.disk.beforePut = () => {}
    await bench.delivery.receive(inbound('u1', 'ada', 'hello'))
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['re hello'])
  })

  it('owes the reply of a commit whose confirmation was lost', async () => {
    const bench = await openBench({ respond: echo })
    // The first write lands, but the store hears of a failure and asks once more.
    let failures = 1
    bench.disk.afterPut = () => {
      if (failures-- > 0) throw diskError('EIO')
    }
    await bench.delivery.receive(inbound('u1', 'ada', 'hello'))
    await bench.delivery.idle()
    expect(await bench.lines('chart-ada')).toEqual(['hello'])
    expect(bench.channel.texts()).toEqual(['re hello'])
  })
})

describe('our own mistake', () => {
  const failing: Respond = (event, diary, at) => {
    if (event.kind === 'said' && event.text === 'bad') throw new RangeError('ada said bad')
    return echo(event, diary, at)
  }

  it('drops the one event, tells the operator by name, and the document goes on', async () => {
    const bench = await openBench({ respond: failing })
    await bench.delivery.receive(inbound('u1', 'ada', 'bad'))
    await bench.delivery.receive(inbound('u2', 'ada', 'good'))
    await bench.delivery.idle()
    expect(await bench.lines('chart-ada')).toEqual(['good'])
    expect(bench.parked).toEqual([{ document: 'chart-ada', event: 'u1', errorName: 'RangeError' }])
    expect(bench.log.lines).toEqual([
      { level: 'error', event: 'event-parked', fields: { document: 'chart-ada', error: 'RangeError', code: 'none' } },
    ])
  })

  it('is parked where the inbound cannot be routed', async () => {
    const bench = await openBench({ respond: echo })
    const unroutable = { kind: 'unreadable', id: brandAs<EventId>('u1'), from: contact('ada') } as const
    await bench.delivery.receive(unroutable)
    expect(bench.parked).toEqual([{ document: null, event: 'u1', errorName: 'TypeError' }])
  })

  it('is parked where the store refuses the commit as wrong', async () => {
    const bench = await openBench({ respond: () => ({ format: 99 }) })
    await bench.delivery.receive(inbound('u1', 'ada', 'hello'))
    expect(bench.parked).toEqual([{ document: 'chart-ada', event: 'u1', errorName: 'TypeError' }])
    expect(await bench.lines('chart-ada')).toBeNull()
  })
})

describe('somebody unknown', () => {
  const stranger: Respond = (event) => ({ kind: 'reply-only', effects: [send(event, 'eve', 'ask your therapist')] })

  it('is answered once, and nothing of them is stored', async () => {
    const bench = await openBench({ respond: stranger })
    await Promise.all(Array.from({ length: 10 }, () => bench.delivery.receive(inbound('u1', 'eve', 'hello'))))
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['ask your therapist'])
    expect({ puts: bench.disk.puts, keys: bench.disk.keys() }).toEqual({ puts: 0, keys: [] })
  })

  it('is answered again when they write again', async () => {
    const bench = await openBench({ respond: stranger })
    await bench.delivery.receive(inbound('u1', 'eve', 'hello'))
    await bench.delivery.receive(inbound('u2', 'eve', 'hello'))
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['ask your therapist', 'ask your therapist'])
  })

  it('who cannot be reached is nobody’s business', async () => {
    const bench = await openBench({ respond: stranger })
    bench.channel.answer = () => ({ kind: 'unreachable' })
    await bench.delivery.receive(inbound('u1', 'eve', 'hello'))
    await bench.delivery.idle()
    expect({ tried: bench.channel.tried.length, puts: bench.disk.puts }).toEqual({ tried: 1, puts: 0 })
  })

  it('is no longer answered ten minutes later', async () => {
    const bench = await openBench({ respond: stranger })
    bench.channel.answer = () => ({ kind: 'later', afterMs: 601_000 })
    await bench.delivery.receive(inbound('u1', 'eve', 'hello'))
    await bench.clock.advance(3_600_000)
    expect(bench.channel.tried.length).toBe(1)
  })
})
