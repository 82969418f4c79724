import { describe, expect, it } from 'vitest'
import type { Urgency } from '#src/domain/message.ts'
import type { Inbound, SendResult } from '#src/ports/channel.ts'
import type { Store } from '#src/ports/store.ts'
import { openBench, reopenAfterKill, type Bench } from '#tests/support/delivery-bench.ts'
import { inbound, send, tell, type Respond } from '#tests/support/diary-handler.ts'
import { flush, type ManualClock } from '#tests/support/manual-clock.ts'

/** The clinic and a client's document, with everything a document can owe. */
const busy: Respond = (event, diary, at) => {
  const to = (name: string, kind: Urgency): ReturnType<typeof send> => send(event, name, `${kind} ${event.id}`, kind)
  if (event.kind === 'told') return { effects: [to('ann', 'alert')] }
  if (event.kind === 'woken') return { timers: [], effects: [send(event, 'ada', 'reminder', 'reminder')] }
  if (event.kind !== 'said') return {}
  const timers = event.text === 'one' ? [at] : diary.timers
  return { timers, effects: [to('ada', 'reply'), tell(event, 'clinic', event.text)] }
}

const texts = ['one', 'two', 'three'] as const

/** Counts the instants at which a process can be killed; from a given one on everything hangs. */
class Fuse {
  burnt = 0
  readonly #length: number

  constructor(length: number) {
    this.#length = length
  }

  get isOut(): boolean {
    return this.burnt >= this.#length
  }

  readonly burn = (): Promise<void> => {
    if (this.isOut) return new Promise(() => {})
    this.burnt += 1
    return this.isOut ? new Promise(() => {}) : Promise.resolve()
  }
}

/** What outlives the process: the network, which keeps what was not confirmed and what it took. */
class Outside {
  readonly confirmed = new Set<string>()
  readonly taken: string[] = []
  readonly texts: readonly string[]

  constructor(texts: readonly string[]) {
    this.texts = texts
  }

  /** What the network brings (again). */
  open(): readonly Inbound[] {
    return this.texts.map((text) => inbound(`u-${text}`, 'ada', text)).filter(({ id }) => !this.confirmed.has(id))
  }
}

function wire(bench: Bench, outside: Outside, fuse: Fuse): void {
  bench.disk.beforePut = fuse.burn
  bench.disk.afterPut = fuse.burn
  bench.channel.answer = async ({ text }): Promise<SendResult> => {
    await fuse.burn()
    outside.taken.push(text)
    await fuse.burn()
    return { kind: 'sent', ref: null }
  }
}

/** One life of the process, until it has nothing left to do or is killed. */
async function live(bench: Bench, outside: Outside, fuse: Fuse): Promise<void> {
  wire(bench, outside, fuse)
  const receiveAll = async (): Promise<void> => {
    await bench.delivery.start()
    await Promise.all(outside.open().map((one) => bench.delivery.receive(one).then(() => outside.confirmed.add(one.id))))
    await bench.delivery.idle()
  }
  void receiveAll()
  for (let turn = 0; turn < 3; turn += 1) await flush()
}

interface Lives {
  readonly bench: Bench
  readonly outside: Outside
  readonly fuse: Fuse
}

async function liveThrough(texts: readonly string[], kills: readonly number[]): Promise<Lives> {
  const outside = new Outside(texts)
  let bench = await openBench({ respond: busy, isStarted: false })
  for (const kill of kills) {
    await live(bench, outside, new Fuse(kill))
    bench = await reopenAfterKill(bench, { respond: busy, isStarted: false })
  }
  const fuse = new Fuse(Infinity)
  await live(bench, outside, fuse)
  return { bench, outside, fuse }
}

function countOf(outside: Outside, text: string): number {
  return outside.taken.filter((one) => one === text).length
}

/** The record holds everything once; everything owed went out, in order, counting each from its first time. */
async function findWrong({ bench, outside }: Lives, leastReminders: number): Promise<unknown[]> {
  const wrong: unknown[] = []
  const lines = (await bench.lines('chart-ada')) ?? []
  if (lines.filter((line) => line !== 'woken' && !isUnreminded(line)).join() !== outside.texts.join()) wrong.push(lines)
  if (lines.filter((line) => line === 'woken').length !== 1) wrong.push(lines)
  const told = await bench.lines('clinic')
  if (told?.join() !== outside.texts.map((text) => `chart-ada told ${text}`).join()) wrong.push(told)
  const firsts = [...new Set(outside.taken)]
  const replies = firsts.filter((text) => text.startsWith('reply')).join()
  if (replies !== outside.texts.map((text) => `reply u-${text}`).join()) wrong.push(replies)
  const alerts = firsts.filter((text) => text.startsWith('alert'))
  if (alerts.length !== outside.texts.length) wrong.push(alerts)
  const reminders = countOf(outside, 'reminder')
  if (reminders < leastReminders || reminders > 2) wrong.push({ reminders })
  // Where it may have gone out never, its document is told, and can ask otherwise.
  if (reminders === 0 && !lines.some(isUnreminded)) wrong.push({ reminders, lines })
  return wrong
}

function isUnreminded(line: string): boolean {
  return line.endsWith('/reminder unreminded, unsure')
}

/** How many instants there are in a life without a kill. */
async function countInstants(texts: readonly string[]): Promise<number> {
  return (await liveThrough(texts, [])).fuse.burnt
}

describe('a process that is killed', () => {
  it('once, at any instant, loses nothing and applies nothing twice', async () => {
    const instants = await countInstants(texts)
    const wrong: unknown[] = []
    for (let kill = 1; kill <= instants; kill += 1) {
      const found = await findWrong(await liveThrough(texts, [kill]), 1)
      if (found.length > 0) wrong.push({ kill, found })
    }
    expect(wrong).toEqual([])
    // Three answers, a wake and three tells: seven writes; seven messages; each with an instant before and one behind.
    expect(instants).toBe(28)
  })

  it('twice, at any two instants, sends a reminder at most twice and alerts and replies at least once', async () => {
    const two = texts.slice(0, 2)
    const instants = await countInstants(two)
    const wrong: unknown[] = []
    for (let first = 1; first <= instants; first += 1) {
      for (let second = 1; second <= instants; second += 1) {
        const found = await findWrong(await liveThrough(two, [first, second]), 0)
        if (found.length > 0) wrong.push({ first, second, found })
      }
    }
    expect(wrong).toEqual([])
  }, 60_000)

  it('again and again before it can note anything sends the reminder twice and the alert each time', async () => {
    const outside = new Outside([])
    const respond: Respond = (event) => ({
      effects: event.kind === 'said' ? [send(event, 'ann', event.text, event.text as Urgency)] : [],
    })
    let bench = await openBench({ respond })
    wire(bench, outside, new Fuse(Infinity))
    await bench.delivery.receive(inbound('u1', 'ada', 'reminder'))
    await bench.delivery.receive(inbound('u2', 'bob', 'alert'))
    await bench.delivery.idle()
    for (let life = 0; life < 4; life += 1) {
      bench = await reopenAfterKill(bench, { respond, isStarted: false })
      wire(bench, outside, new Fuse(Infinity))
      await bench.delivery.start()
      await bench.delivery.idle()
    }
    const counts = ['reminder', 'alert'].map((text) => countOf(outside, text))
    expect(counts).toEqual([2, 5])
    expect(await bench.lines('chart-ada')).toEqual(['reminder', 'u1/reminder unreminded, unsure'])
  })

  it('counts a reminder that an answer makes it take over from another process as one that may have gone out', async () => {
    const outside = new Outside([])
    const respond: Respond = (event) => ({ effects: event.kind === 'said' && event.text === 'remind' ? [send(event, 'ada', 'reminder', 'reminder')] : [] })
    // As where the other still counts as living at the start, and as dead by the time of the answer.
    const wrap = (store: Store): Store => new Proxy(store, { get: (target, key) => (key === 'claim' ? async () => [] : memberOf(target, key)) })
    let bench = await openBench({ respond })
    wire(bench, outside, new Fuse(Infinity))
    await bench.delivery.receive(inbound('u1', 'ada', 'remind'))
    await bench.delivery.idle()
    for (let life = 0; life < 3; life += 1) {
      bench = await reopenAfterKill(bench, { respond, wrap })
      wire(bench, outside, new Fuse(Infinity))
      await bench.delivery.receive(inbound(`again-${life}`, 'ada', 'hello'))
      await bench.delivery.idle()
    }
    expect(countOf(outside, 'reminder')).toBe(2)
  })

  it('sends what was owed most urgent first at the next start, before anything new', async () => {
    const respond: Respond = (event) => {
      if (event.kind === 'woken') return { timers: [], effects: [send(event, 'ann', 'woken', 'alert')] }
      const urgency = (event.kind === 'said' ? event.text : 'reply') as Urgency
      return { timers: [soon], effects: [send(event, 'ann', urgency, urgency)] }
    }
    const old = await openBench({ respond })
    const soon = old.clock.now() + 3_600_000
    old.channel.answer = () => new Promise(() => {})
    for (const [person, urgency] of [['p1', 'reminder'], ['p2', 'reply'], ['p3', 'alert']] as const) {
      await old.delivery.receive(inbound(person, person, urgency))
    }
    jumpTo(old.clock, soon)
    const bench = await reopenAfterKill(old, { respond })
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual(['alert', 'reply', 'reminder', 'woken', 'woken', 'woken'])
  })

  it('does not send a reminder at the next start that is worth nothing by then, and its document is told', async () => {
    const respond: Respond = (event) => ({ effects: event.kind === 'said' ? [send(event, 'ann', event.text, event.text as Urgency)] : [] })
    const old = await openBench({ respond })
    old.channel.answer = () => new Promise(() => {})
    await old.delivery.receive(inbound('u1', 'ada', 'reminder'))
    jumpTo(old.clock, old.clock.now() + 9 * 3_600_000)
    const bench = await reopenAfterKill(old, { respond })
    await bench.delivery.idle()
    expect(bench.channel.texts()).toEqual([])
    expect(await bench.lines('chart-ada')).toEqual(['reminder', 'u1/reminder unreminded, late'])
  })

  it('minutes after the last answer sends nothing again', async () => {
    const old = await openBench({ respond: busy })
    await old.delivery.receive(inbound('u1', 'ada', 'two'))
    await old.delivery.idle()
    const putsAtOnce = old.disk.puts
    await old.clock.advance(4 * 60_000)
    const bench = await reopenAfterKill(old, { respond: busy })
    await bench.delivery.idle()
    expect(old.channel.texts().toSorted()).toEqual(['alert u1/tell/two', 'reply u1'])
    expect(bench.channel.tried).toEqual([])
    // One write an answer and a tell, then one each for the marks.
    expect([putsAtOnce, old.disk.puts]).toEqual([2, 4])
  })

  it('is no reason to write marks of their own while answers carry them', async () => {
    const bench = await openBench({ respond: (event) => ({ effects: [send(event, 'ada', 're')] }) })
    for (let answer = 1; answer <= 20; answer += 1) {
      await bench.delivery.receive(inbound(`u${answer}`, 'ada', 'x'))
      await bench.clock.advance(100_000)
    }
    expect(bench.disk.puts).toBe(20)
  })
})

function jumpTo(clock: ManualClock, at: number): void {
  clock.jump(at - clock.now())
}

function memberOf(store: Store, key: string | symbol): unknown {
  const member: unknown = Reflect.get(store, key)
  return typeof member === 'function' ? member.bind(store) : member
}
