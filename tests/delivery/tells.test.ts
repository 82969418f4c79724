import { describe, expect, it } from 'vitest'
import { openBench, reopenAfterKill } from '#tests/support/delivery-bench.ts'
import { inbound, send, tell, type Respond } from '#tests/support/diary-handler.ts'
import { diskError } from '#tests/support/fragile-disk.ts'
import { Gate } from '#tests/support/gate.ts'
import { flush } from '#tests/support/manual-clock.ts'

/** A message such as `clinic:one clinic:two` tells just that; whoever is told lets the therapist know. */
const gossip: Respond = (event) => {
  if (event.kind === 'told') return { effects: [send(event, 'ann', `heard ${event.told}`, 'alert')] }
  if (event.kind !== 'said') return {}
  const pairs = event.text.split(' ').map((word) => word.split(':'))
  return { effects: pairs.map(([to = '', told = '']) => tell(event, to, told)) }
}

describe('a tell', () => {
  it('becomes an event of the other document, in order, and is no longer owed', async () => {
    const bench = await openBench({ respond: gossip })
    await bench.delivery.receive(inbound('1', 'ada', 'clinic:one clinic:two'))
    await bench.delivery.receive(inbound('2', 'ada', 'clinic:three'))
    await bench.delivery.idle()
    expect(await bench.lines('clinic')).toEqual(['chart-ada told one', 'chart-ada told two', 'chart-ada told three'])
    expect(bench.channel.texts('ann')).toEqual(['heard one', 'heard two', 'heard three'])
    expect(await bench.store.documentsOwing()).toEqual([])
  })

  it('does not lock two documents that tell each other, nor one that tells itself', async () => {
    const respond: Respond = (event, diary, at) => {
      if (event.kind !== 'told' || event.told.length > 3) return gossip(event, diary, at)
      return { effects: [tell(event, event.from, `${event.told}.`)] }
    }
    const bench = await openBench({ respond })
    await Promise.all([
      bench.delivery.receive(inbound('1', 'ada', 'chart-bob:a chart-ada:b')),
      bench.delivery.receive(inbound('2', 'bob', 'chart-ada:c')),
    ])
    await bench.delivery.idle()
    expect((await bench.lines('chart-ada'))?.toSorted()).toEqual(
      ['chart-ada told b', 'chart-ada told b.', 'chart-ada told b..', 'chart-ada told b...', 'chart-bob told a.',
       'chart-bob told a...', 'chart-bob told c', 'chart-bob told c..', 'chart-bob:a chart-ada:b'].toSorted(),
    )
  })

  it('does not keep the teller’s next message waiting', async () => {
    const bench = await openBench({ respond: gossip })
    const gate = new Gate()
    bench.disk.beforePut = (key) => (key.includes('clinic') ? gate.opened : undefined)
    await bench.delivery.receive(inbound('1', 'ada', 'clinic:one'))
    await bench.delivery.receive(inbound('2', 'ada', 'clinic:two'))
    const meanwhile = { ada: await bench.lines('chart-ada') }
    gate.open()
    await bench.delivery.idle()
    expect(meanwhile).toEqual({ ada: ['clinic:one', 'clinic:two'] })
    expect(await bench.lines('clinic')).toEqual(['chart-ada told one', 'chart-ada told two'])
  })

  it('is tried again, in order, until the store takes it', async () => {
    const bench = await openBench({ respond: gossip })
    bench.disk.beforePut = (key) => {
      if (key.includes('clinic')) throw diskError('EIO')
    }
    await bench.delivery.receive(inbound('1', 'ada', 'clinic:one clinic:two desk:three'))
    await bench.delivery.idle()
    await bench.clock.advance(600_000)
    const meanwhile = { clinic: await bench.lines('clinic'), desk: await bench.lines('desk') }
    bench.disk.beforePut = () => {}
    await bench.clock.advance(60_000)
    expect(meanwhile).toEqual({ clinic: null, desk: ['chart-ada told three'] })
    expect(await bench.lines('clinic')).toEqual(['chart-ada told one', 'chart-ada told two'])
  })

  it('on which the other document fails is parked and no longer owed', async () => {
    const respond: Respond = (event, diary, at) => {
      if (event.kind === 'told' && event.told === 'bad') throw new RangeError('bad')
      return gossip(event, diary, at)
    }
    const bench = await openBench({ respond })
    await bench.delivery.receive(inbound('1', 'ada', 'clinic:bad clinic:good'))
    await bench.delivery.idle()
    expect(bench.parked).toEqual([{ document: 'clinic', event: '1/tell/bad', errorName: 'RangeError' }])
    expect(await bench.lines('clinic')).toEqual(['chart-ada told good'])
    expect(await bench.store.documentsOwing()).toEqual([])
  })

  it('reaches the other document once when the process is killed before it', async () => {
    const old = await openBench({ respond: gossip })
    old.disk.beforePut = (key) => (key.includes('clinic') ? new Promise(() => {}) : undefined)
    await old.delivery.receive(inbound('1', 'ada', 'clinic:one clinic:two'))
    await flush()
    const bench = await reopenAfterKill(old, { respond: gossip })
    await bench.delivery.idle()
    expect(await bench.lines('clinic')).toEqual(['chart-ada told one', 'chart-ada told two'])
  })

  it('reaches the other document once when the process is killed right behind it', async () => {
    const old = await openBench({ respond: gossip })
    await old.delivery.receive(inbound('1', 'ada', 'clinic:one clinic:two'))
    await old.delivery.idle()
    // The marks ride on the next commit, which did not come: after the kill both are still owed.
    const bench = await reopenAfterKill(old, { respond: gossip, isStarted: false })
    const owedBefore = await bench.store.documentsOwing()
    await bench.delivery.start()
    await bench.delivery.idle()
    expect(owedBefore).toEqual(['chart-ada', 'clinic'])
    expect(await bench.lines('clinic')).toEqual(['chart-ada told one', 'chart-ada told two'])
    expect(await bench.store.documentsOwing()).toEqual([])
  })
})
