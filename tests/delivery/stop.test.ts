import { describe, expect, it } from 'vitest'
import { openBench } from '#tests/support/delivery-bench.ts'
import { documentId, echo, inbound, send, tell, type Respond } from '#tests/support/diary-handler.ts'
import { Gate } from '#tests/support/gate.ts'
import { diskError } from '#tests/support/fragile-disk.ts'
import { flush } from '#tests/support/manual-clock.ts'
import { later } from '#tests/support/scripted-channel.ts'

/** Whether a promise has settled by the time nothing else can run without time passing. */
async function isSettled(promise: Promise<unknown>): Promise<boolean> {
  let settled = false
  void promise.then(
    () => (settled = true),
    () => (settled = true),
  )
  await flush()
  return settled
}

describe('stopping', () => {
  it('lets what runs be committed and sent, so that the next start owes nothing', async () => {
    const bench = await openBench({ respond: echo })
    const gate = new Gate()
    bench.disk.beforePut = () => gate.opened
    const received = [bench.delivery.receive(inbound('1', 'ada', 'a')), bench.delivery.receive(inbound('2', 'ada', 'b'))]
    const stopped = bench.delivery.stop()
    const isEarly = await isSettled(stopped)
    gate.open()
    await Promise.all([stopped, ...received])
    expect(isEarly).toBe(false)
    expect(bench.channel.texts()).toEqual(['re a', 're b'])
    expect(await bench.store.documentsOwing()).toEqual([])
  })

  it('takes nothing in any more, so that the network keeps it', async () => {
    const bench = await openBench({ respond: echo })
    await bench.delivery.stop()
    const error: unknown = await bench.delivery.receive(inbound('1', 'ada', 'a')).catch((reason: unknown) => reason)
    expect(error).toMatchObject({ name: 'DeliveryStopped', code: 'stopped' })
    expect(await bench.lines('chart-ada')).toBeNull()
  })

  it('ends after ten seconds although a network never answers; what was not sent stays owed', async () => {
    const bench = await openBench({ respond: echo })
    bench.channel.answer = () => new Promise(() => {})
    await bench.delivery.receive(inbound('1', 'ada', 'a'))
    await bench.delivery.receive(inbound('2', 'ada', 'b'))
    const stopped = bench.delivery.stop()
    await bench.clock.advance(9999)
    const isEarly = await isSettled(stopped)
    await bench.clock.advance(1)
    expect([isEarly, await isSettled(stopped)]).toEqual([false, true])
    expect((await bench.store.owed(documentId('chart-ada'))).length).toBe(2)
  })

  it('begins nothing more once its ten seconds are over', async () => {
    const bench = await openBench({ respond: echo })
    const gate = new Gate()
    bench.channel.answer = async () => {
      await gate.opened
      return { kind: 'sent', ref: null }
    }
    await bench.delivery.receive(inbound('1', 'ada', 'a'))
    await bench.delivery.receive(inbound('2', 'ada', 'b'))
    const stopped = bench.delivery.stop()
    await bench.clock.advance(10_000)
    await stopped
    gate.open()
    await flush()
    expect(bench.channel.tried.map(({ text }) => text)).toEqual(['re a'])
  })

  it('does not wait for what is held back, and leaves no timer behind', async () => {
    const respond: Respond = (event, _diary, at) => ({
      timers: [at + 3_600_000],
      effects: event.kind === 'said' ? [send(event, 'ada', 'hello', 'alert'), tell(event, 'clinic', 'x')] : [],
    })
    const bench = await openBench({ respond })
    bench.channel.answer = () => later(30_000)
    bench.disk.beforePut = (key) => {
      if (key.includes('clinic')) throw diskError('EIO')
    }
    await bench.delivery.receive(inbound('1', 'ada', 'a'))
    await bench.delivery.idle()
    const held = bench.clock.waits
    await bench.delivery.stop()
    await flush()
    expect({ held: held.length, left: bench.clock.waits }).toEqual({ held: 4, left: [] })
    expect(await bench.store.documentsOwing()).toEqual(['chart-ada'])
  })

  it('fires no timer afterwards', async () => {
    const respond: Respond = (event, _diary, at) =>
      event.kind === 'woken' ? { timers: [], effects: [send(event, 'ada', 'due')] } : { timers: [at + 1000] }
    const bench = await openBench({ respond })
    await bench.delivery.receive(inbound('1', 'ada', 'a'))
    await bench.delivery.stop()
    await bench.clock.advance(3_600_000)
    expect(bench.channel.tried).toEqual([])
  })

  it('twice is stopping once', async () => {
    const bench = await openBench({ respond: echo })
    expect(bench.delivery.stop()).toBe(bench.delivery.stop())
    await bench.delivery.stop()
    expect(bench.clock.waits).toEqual([])
  })
})

describe('being idle', () => {
  it('means that everything sendable is sent and marked, and does not wait for what is held back', async () => {
    const bench = await openBench({ respond: echo })
    bench.channel.answer = ({ address }) => (address === 'ada' ? later(60_000) : { kind: 'sent', ref: null })
    void bench.delivery.receive(inbound('1', 'ada', 'a'))
    void bench.delivery.receive(inbound('2', 'bob', 'b'))
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['re b'])
    expect(await bench.store.documentsOwing()).toEqual(['chart-ada'])
  })
})
