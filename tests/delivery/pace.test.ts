import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { telegramLimits } from '#src/channels/telegram/telegram-channel.ts'
import { Pace } from '#src/delivery/pace.ts'
import type { Effect, Urgency } from '#src/domain/message.ts'
import { benchStart, openBench, type Bench } from '#tests/support/delivery-bench.ts'
import { echo, inbound, send, type Respond } from '#tests/support/diary-handler.ts'
import { ManualClock } from '#tests/support/manual-clock.ts'
import { later } from '#tests/support/scripted-channel.ts'
import { mostWithin, timedChannel, type TimedSend } from '#tests/support/send-times.ts'

const second = 1000
const { overall, perContact } = telegramLimits

/** `reminder:200` owes a reminder to each of 200 people at once, `alert:ann` one alert to one of them. */
const crowd: Respond = (event) => {
  if (event.kind !== 'said') return {}
  const effects = event.text.split(' ').flatMap((word, index): Effect[] => {
    const [urgency = '', to = ''] = word.split(':')
    const people = /^\d+$/.test(to) ? Array.from({ length: Number(to) }, (_, person) => `p${person}`) : [to]
    return people.map((person, number) => send(event, person, `${event.id}.${index + 1}.${number + 1}`, urgency as Urgency))
  })
  return { effects }
}

interface Paced {
  readonly bench: Bench
  readonly sends: readonly TimedSend[]
}

async function openPaced(respond: Respond = crowd, share = (): number => 1): Promise<Paced> {
  const clock = new ManualClock(benchStart)
  const { channel, sends } = timedChannel(clock, telegramLimits)
  return { bench: await openBench({ respond, clock, channel, share }), sends }
}

const timesOf = (sends: readonly TimedSend[]): readonly number[] => sends.map(({ at }) => at - benchStart)

describe('a network’s pace', () => {
  it('is used whole and never exceeded, however many are due at once', async () => {
    const { bench, sends } = await openPaced()
    await bench.delivery.receive(inbound('1', 'ada', 'reminder:300'))
    await bench.clock.advance(20 * second)
    const times = timesOf(sends)
    expect({ sent: sends.length, most: mostWithin(times, overall.withinMs) }).toEqual({ sent: 300, most: 30 })
    expect(times.at(-1)).toBeLessThanOrEqual(10 * second)
  })

  it('lets an alert go first of all that is due at once', async () => {
    const { bench, sends } = await openPaced()
    await bench.delivery.receive(inbound('1', 'ada', 'reminder:100'))
    await bench.delivery.receive(inbound('2', 'bob', 'reply:50'))
    await bench.delivery.receive(inbound('3', 'cyd', 'alert:ann alert:eve'))
    await bench.clock.advance(0)
    const before = sends.length
    await bench.clock.advance(10 * second)
    expect(sends.slice(before - 2, before).map(({ address }) => address)).toEqual(['ann', 'eve'])
    expect(sends.map(({ urgency }) => urgency).lastIndexOf('reply')).toBeLessThan(sends.length - 90)
  })

  it('keeps an alert waiting for less than a fifth of a second, whenever it comes into a crowd', async () => {
    const waits: number[] = []
    for (let ms = 0; ms < 2 * second; ms += 170) {
      const { bench, sends } = await openPaced()
      await bench.delivery.receive(inbound('1', 'ada', 'reminder:200'))
      await bench.clock.advance(ms)
      await bench.delivery.receive(inbound('2', 'bob', 'alert:ann'))
      await bench.clock.advance(second)
      waits.push((sends.find(({ urgency }) => urgency === 'alert')?.at ?? Infinity) - benchStart - ms)
    }
    expect(Math.max(...waits)).toBeLessThan(200)
  })

  it('delays nobody but the person who is sent too much, and keeps their order', async () => {
    const { bench, sends } = await openPaced()
    const many = Array.from({ length: 15 }, () => 'reply:ann').join(' ')
    await bench.delivery.receive(inbound('1', 'ada', many))
    await bench.delivery.receive(inbound('2', 'bob', 'reply:eve'))
    await bench.clock.advance(10 * second)
    const toAnn = sends.filter(({ address }) => address === 'ann')
    expect(toAnn.map(({ text }) => text)).toEqual(Array.from({ length: 15 }, (_, index) => `1.${index + 1}.1`))
    expect(timesOf(toAnn).slice(perContact.burst)).toEqual([1, 2, 3, 4, 5].map((seconds) => seconds * second))
    expect(sends.find(({ address }) => address === 'eve')?.at).toBeLessThan(benchStart + second)
  })

  it('does not slow somebody who gives nine answers, one a second, with two messages each', async () => {
    const two: Respond = (event) => (event.kind === 'said' ? { effects: ['closed', 'next'].map((text) => send(event, 'ann', text)) } : {})
    const { bench, sends } = await openPaced(two)
    for (let press = 0; press < 9; press += 1) {
      await bench.delivery.receive(inbound(String(press), 'ann', 'x'))
      await bench.clock.advance(second)
    }
    expect(timesOf(sends)).toEqual(Array.from({ length: 18 }, (_, index) => Math.floor(index / 2) * second))
  })

  it('lets an alert overtake what the same person is kept waiting for', async () => {
    const { bench, sends } = await openPaced()
    await bench.delivery.receive(inbound('1', 'ada', Array.from({ length: 15 }, () => 'reply:ann').join(' ')))
    await bench.clock.advance(100)
    await bench.delivery.receive(inbound('2', 'bob', 'alert:ann'))
    await bench.clock.advance(0)
    expect(sends.at(-1)).toMatchObject({ urgency: 'alert', at: benchStart + 100 })
  })

  it('tells that an alert waits when one person gets more of them than go out within a minute', async () => {
    const { bench, sends } = await openPaced()
    await bench.delivery.receive(inbound('1', 'ada', Array.from({ length: 85 }, () => 'alert:ann').join(' ')))
    await bench.clock.advance(59 * second)
    const before = bench.log.events().filter((event) => event === 'alert-delayed').length
    await bench.clock.advance(30 * second)
    const after = bench.log.events().filter((event) => event === 'alert-delayed').length
    expect([before, after > 0, sends.filter(({ text }) => text.startsWith('1.')).length]).toEqual([0, true, 85])
  })

  it('honours a 429 all the same: once more after three seconds, others not delayed', async () => {
    const { bench, sends } = await openPaced(echo)
    bench.channel.answer = (sent, number) => {
      ;(sends as TimedSend[]).push({ ...sent, at: bench.clock.now() })
      return number === 1 ? later(3 * second) : { kind: 'sent', ref: null }
    }
    await bench.delivery.receive(inbound('1', 'ada', 'a'))
    await bench.delivery.receive(inbound('2', 'bob', 'b'))
    await bench.clock.advance(10 * second)
    expect(sends.map(({ text, at }) => [text, at - benchStart])).toEqual([['re a', 0], ['re b', 0], ['re a', 3 * second]])
  })

  it('leaves a crowd owed at a stop, but no alert', async () => {
    const { bench, sends } = await openPaced()
    await bench.delivery.receive(inbound('1', 'ada', 'alert:60 reminder:300'))
    const stopped = bench.delivery.stop()
    await bench.clock.advance(10 * second)
    await stopped
    const alerts = sends.filter(({ urgency }) => urgency === 'alert').length
    expect({ alerts, mostOthers: sends.length - alerts < 30 }).toEqual({ alerts: 60, mostOthers: true })
  })
})

describe('a share of a pace', () => {
  const paceOf = (clock: ManualClock, share: number): Pace => new Pace(telegramLimits, clock, () => share)

  /** As many as the pace lets go, to different people, in steps of 10 ms. */
  async function run(clock: ManualClock, paces: readonly Pace[], urgency: Urgency, ms: number): Promise<number[]> {
    const times: number[] = []
    for (let passed = 0; passed < ms; passed += 10) {
      for (const [index, pace] of paces.entries()) {
        for (; pace.overallDelayMs(urgency) === 0; pace.take(`${index} ${times.length}`)) times.push(passed)
      }
      await clock.advance(10)
    }
    return times
  }

  it.each([
    [[1], 30],
    [[0.5, 0.5], 30],
    [[0.3, 0.3, 0.4], 30],
    [[0.25, 0.25, 0.25, 0.25], 28],
  ])('of %j keeps all processes together to the limit', async (shares, most) => {
    const clock = new ManualClock(benchStart)
    const times = await run(clock, shares.map((share) => paceOf(clock, share)), 'alert', 5 * second)
    expect([mostWithin(times, second), times.length]).toEqual([most, 5 * most])
  })

  it('is what a delivery keeps to, and it may change while a crowd waits', async () => {
    let share = 0.5
    const { bench, sends } = await openPaced(crowd, () => share)
    await bench.delivery.receive(inbound('1', 'ada', 'reminder:200'))
    await bench.clock.advance(4 * second)
    const most = [mostWithin(timesOf(sends), second)]
    share = 1
    await bench.clock.advance(2 * second)
    const whole = timesOf(sends).filter((at) => at > 5 * second && at <= 6 * second).length
    expect([...most, whole]).toEqual([15, 30])
  })

  it('below one message a second is one message in a longer time', async () => {
    const clock = new ManualClock(benchStart)
    expect(await run(clock, [paceOf(clock, 1 / 60)], 'reply', 5 * second)).toEqual([0, 2000, 4000])
  })

  it('holds nobody back because the clock was set back', async () => {
    const clock = new ManualClock(benchStart)
    const pace = paceOf(clock, 1)
    await run(clock, [pace], 'alert', 20)
    clock.jump(-3_600_000)
    expect(pace.overallDelayMs('alert')).toBeLessThanOrEqual(second)
    await clock.advance(second)
    expect([pace.overallDelayMs('alert'), pace.contactDelayMs('0 1', 'reply')]).toEqual([0, 0])
  })

  it('is kept in every stretch, whatever comes when', async () => {
    const arrivals = fc.array(fc.tuple(fc.nat({ max: 400 }), fc.nat({ max: 3 }), fc.constantFrom<Urgency>('alert', 'reply', 'reminder')), { maxLength: 150 })
    await fc.assert(
      fc.asyncProperty(arrivals, async (list) => {
        const clock = new ManualClock(benchStart)
        const pace = paceOf(clock, 1)
        const times: number[] = []
        const toOne = new Map<string, number[]>()
        for (const [afterMs, person, urgency] of list) {
          await clock.advance(afterMs % 5 === 0 ? 0 : afterMs)
          const contact = `p${person}`
          if (Math.max(pace.overallDelayMs(urgency), pace.contactDelayMs(contact, urgency)) > 0) continue
          pace.take(contact)
          times.push(clock.now())
          toOne.set(contact, [...(toOne.get(contact) ?? []), clock.now()])
        }
        expect(mostWithin(times, overall.withinMs)).toBeLessThanOrEqual(overall.atMost)
        // Alerts may add five to the burst.
        for (const one of toOne.values()) for (const stretch of [1, 5, 30]) expect(mostWithin(one, stretch * second)).toBeLessThanOrEqual(perContact.burst + 5 + stretch)
      }),
      { seed: 20261128, numRuns: 40 },
    )
  })
})
