import { describe, expect, it } from 'vitest'
import { benchStart, openBench, reopenAfterKill } from '#tests/support/delivery-bench.ts'
import { inbound, send, type Respond } from '#tests/support/diary-handler.ts'
import { diskError } from '#tests/support/fragile-disk.ts'
import { Gate } from '#tests/support/gate.ts'

const [second, minute, hour, day] = [1000, 60_000, 3_600_000, 24 * 3_600_000]

/** A message such as `+60 +90` sets timers so many seconds on; a due timer fires and is gone. */
const alarm: Respond = (event, diary, at) => {
  if (event.kind === 'said') {
    return { timers: [...diary.timers, ...event.text.split(' ').map((word) => at + Number(word) * second)] }
  }
  const due = diary.timers.filter((timer) => timer <= at)
  if (event.kind !== 'woken' || due.length === 0) return null
  const texts = due.map((timer, index) => `${index + 1}: ${(timer - benchStart) / second}`)
  const effects = texts.map((text) => send(event, 'ada', text, 'reminder'))
  return { timers: diary.timers.filter((timer) => timer > at), effects }
}

describe('timers', () => {
  it('wake a document when one falls due, one after the other', async () => {
    const bench = await openBench({ respond: alarm })
    await bench.delivery.receive(inbound('1', 'ada', '+60 +90'))
    await bench.clock.advance(60 * second - 1)
    const before = bench.channel.texts()
    await bench.clock.advance(1)
    const first = bench.channel.texts()
    await bench.clock.advance(30 * second)
    expect([before, first, bench.channel.texts()]).toEqual([[], ['1: 60'], ['1: 60', '1: 90']])
  })

  it('are armed anew when an earlier one is set, and none is waited for but the earliest', async () => {
    const bench = await openBench({ respond: alarm })
    await bench.delivery.receive(inbound('1', 'ada', '+500'))
    await bench.delivery.idle()
    const first = bench.clock.waits
    await bench.delivery.receive(inbound('2', 'bob', '+60'))
    await bench.delivery.idle()
    expect([first, bench.clock.waits]).toEqual([[500 * second], [60 * second]])
  })

  it('are waited for in short stretches, so that one 30 days off neither fires at once nor is lost', async () => {
    const bench = await openBench({ respond: alarm })
    await bench.delivery.receive(inbound('1', 'ada', `+${(30 * day) / second}`))
    await bench.delivery.idle()
    const longest = Math.max(...bench.clock.waits)
    await bench.clock.advance(30 * day - 1)
    const before = bench.channel.texts()
    await bench.clock.advance(1)
    expect({ longest, before, after: bench.channel.texts() }).toEqual({
      longest: 10 * minute,
      before: [],
      after: [`1: ${(30 * day) / second}`],
    })
  })

  it('that fell due while the machine slept fire within one stretch', async () => {
    const bench = await openBench({ respond: alarm })
    await bench.delivery.receive(inbound('1', 'ada', `+${(8 * hour) / second}`))
    await bench.delivery.idle()
    bench.clock.jump(day)
    await bench.clock.advance(10 * minute)
    expect(bench.channel.texts()).toEqual(['1: 28800'])
  })

  it('fire on demand after the clock was moved', async () => {
    const bench = await openBench({ respond: alarm })
    await bench.delivery.receive(inbound('1', 'ada', '+3600 +7200 +10800'))
    bench.clock.jump(2 * hour)
    await bench.delivery.runDue()
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['1: 3600', '2: 7200'])
  })

  it('due during a restart fire once after it', async () => {
    const old = await openBench({ respond: alarm })
    await old.delivery.receive(inbound('1', 'ada', '+60'))
    old.clock.jump(hour)
    const bench = await reopenAfterKill(old, { respond: alarm })
    await bench.delivery.idle()
    await bench.clock.advance(day)
    expect(bench.channel.texts()).toEqual(['1: 60'])
  })

  it('of one document do not wait for another whose write is slow', async () => {
    const bench = await openBench({ respond: alarm })
    await bench.delivery.receive(inbound('1', 'ada', '+60'))
    await bench.delivery.receive(inbound('2', 'bob', '+60 +61'))
    const gate = new Gate()
    bench.disk.beforePut = (key) => (key.includes('ada') ? gate.opened : undefined)
    await bench.clock.advance(61 * second)
    expect(await bench.lines('chart-bob')).toEqual(['+60 +61', 'woken', 'woken'])
    gate.open()
    await bench.delivery.idle()
    expect(await bench.lines('chart-ada')).toEqual(['+60', 'woken'])
  })

  it('at one instant that the document fires one at a time all fire', async () => {
    // Two timers at one instant, of which a step takes one: the same due instant wakes twice, under two ids.
    const oneByOne: Respond = (event, diary, at) => {
      if (event.kind === 'said') return alarm(event, diary, at)
      return { timers: diary.timers.slice(1), effects: [send(event, 'ada', 'due')] }
    }
    const bench = await openBench({ respond: oneByOne })
    await bench.delivery.receive(inbound('1', 'ada', '+60 +60 +60'))
    await bench.clock.advance(60 * second + 2 * minute)
    expect(bench.channel.texts()).toEqual(['due', 'due', 'due'])
  })
})

describe('a document that stays due', () => {
  const stubborn: Respond = (event, diary, at) => (event.kind === 'said' ? alarm(event, diary, at) : null)

  it('is woken once a minute, with one warning, and hides no other timer', async () => {
    let wakes = 0
    const respond: Respond = (event, diary, at) => {
      if (diary.id === 'chart-bob') return alarm(event, diary, at)
      if (event.kind === 'woken') wakes += 1
      return stubborn(event, diary, at)
    }
    const bench = await openBench({ respond })
    await bench.delivery.receive(inbound('1', 'ada', '+60'))
    await bench.delivery.receive(inbound('2', 'bob', '+90'))
    await bench.clock.advance(90 * second)
    const bob = await bench.lines('chart-bob')
    await bench.clock.advance(9 * minute)
    expect({ wakes, bob }).toEqual({ wakes: 10, bob: ['+90', 'woken'] })
    expect(bench.log.lines).toEqual([{ level: 'warn', event: 'timer-stuck', fields: { document: 'chart-ada' } }])
  })

  it('because its step fails is reported once', async () => {
    const respond: Respond = (event, diary, at) => {
      if (event.kind === 'woken') throw new RangeError('no')
      return alarm(event, diary, at)
    }
    const bench = await openBench({ respond })
    await bench.delivery.receive(inbound('1', 'ada', '+60'))
    await bench.clock.advance(10 * minute)
    expect(bench.log.events()).toEqual(['event-parked', 'timer-stuck'])
    expect(bench.parked.length).toBe(1)
  })

  it('is woken at once when it is due at another instant', async () => {
    const respond: Respond = (event, diary, at) => {
      const react = diary.lines.length < 2 ? stubborn : alarm
      return react(event, diary, at)
    }
    const bench = await openBench({ respond })
    await bench.delivery.receive(inbound('1', 'ada', '+60'))
    await bench.clock.advance(61 * second)
    await bench.delivery.receive(inbound('2', 'ada', '-30'))
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['1: 60', '2: 31'])
  })

  it('with ever new timers in the past is held back as well', async () => {
    let wakes = 0
    const respond: Respond = (event, diary, at) => {
      if (event.kind === 'said') return alarm(event, diary, at)
      wakes += 1
      return { timers: [at - wakes] }
    }
    const bench = await openBench({ respond })
    await bench.delivery.receive(inbound('1', 'ada', '+60'))
    await bench.clock.advance(60 * second)
    expect({ wakes, log: bench.log.events() }).toEqual({ wakes: 100, log: ['timer-stuck'] })
  })

  it('because the store fails is woken within five seconds of its being back', async () => {
    const bench = await openBench({ respond: alarm })
    await bench.delivery.receive(inbound('1', 'ada', '+60'))
    bench.disk.beforePut = () => {
      throw diskError('EIO')
    }
    await bench.clock.advance(90 * second)
    bench.disk.beforePut = () => {}
    await bench.clock.advance(5 * second)
    expect(bench.channel.texts()).toEqual(['1: 60'])
  })
})
