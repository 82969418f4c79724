import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { StoreError } from '#src/ports/store.ts'
import { turnUntil } from '#tests/support/event-loop.ts'
import { Gate } from '#tests/support/gate.ts'
import { accept, refuse } from '#tests/support/telegram-api.ts'
import { pressUpdate, textUpdate } from '#tests/support/telegram-updates.ts'
import { bringPieces } from '#tests/support/bring-update.ts'
import { hook, openWebhookRig, type WebhookRig } from '#tests/support/webhook-rig.ts'

let opened: WebhookRig
beforeEach(async () => {
  opened = await openWebhookRig()
})
afterEach(() => opened.close())

const bring = (...args: Parameters<WebhookRig['bring']>) => opened.bring(...args)
const statusOf = async (...args: Parameters<WebhookRig['bring']>) => (await bring(...args)).status
const idsOf = () => opened.rig.received.map(({ id }) => id)

/** Whether a call has been answered, once everything has had its turn. */
function follow(call: Promise<number>): { status: number | null } {
  const followed: { status: number | null } = { status: null }
  void call.then((status) => (followed.status = status))
  return followed
}

describe('who may bring an update', () => {
  it.each<[string, string | null]>([
    ['no secret', null],
    ['an empty secret', ''],
    ['a wrong secret', 'secret-of-the-hook_0-8'],
    ['the beginning of the secret', 'secret-of-the-hook'],
    ['the secret and more', `${hook.secret}0`],
  ])('is told 401 with %s, and nothing is taken (check 12)', async (_, secret) => {
    await opened.rig.start()
    expect(await statusOf(textUpdate(1, 11, '2'), { secret })).toBe(401)
    expect([opened.rig.received, opened.rig.heard()]).toEqual([[], 1])
    expect([await statusOf(textUpdate(1, 11, '2')), idsOf()]).toEqual([200, ['telegram:update:1']])
  })

  it('is told 401 before anything of the body is judged', async () => {
    await opened.rig.start()
    expect(await statusOf('no json', { secret: null })).toBe(401)
  })
})

describe('what is brought', () => {
  it('must be a JSON object with an update’s id, or is answered with 400', async () => {
    await opened.rig.start()
    const bodies = ['', 'no json', '{"update_id":', 'null', '[]', '7', '{}', { update_id: '5' }, { update_id: 1.5 }]
    expect(await Promise.all(bodies.map((body) => statusOf(body)))).toEqual(bodies.map(() => 400))
    expect(opened.rig.received).toEqual([])
  })

  it('may be as large as a megabyte', async () => {
    await opened.rig.start()
    expect(await statusOf(JSON.stringify(textUpdate(1, 11, 'x')).padEnd(1_000_000, ' '))).toBe(200)
    expect(idsOf()).toEqual(['telegram:update:1'])
  })

  it('is answered with 413 beyond that, whether it says so or only comes', async () => {
    await opened.rig.start()
    const path = `${opened.address}/from-telegram`
    const said = await bringPieces(path, hook.secret, 'Content-Length: 1000001', [])
    const came = await bringPieces(path, hook.secret, 'Transfer-Encoding: chunked', ['f4241\r\n', ' '.repeat(1_000_001)])
    expect([said, came, opened.rig.received]).toEqual(['HTTP/1.1 413 Payload Too Large', 'HTTP/1.1 413 Payload Too Large', []])
  })

  it('must be posted to the webhook’s own path: 405 for another method, 404 for another path', async () => {
    await opened.rig.start()
    const got = await bring('', { method: 'GET' })
    expect([got.status, got.allow]).toEqual([405, 'POST'])
    expect(await statusOf(textUpdate(1, 11, '2'), { path: '/' })).toBe(404)
    expect(await statusOf(textUpdate(1, 11, '2'), { path: '/from-telegram/more' })).toBe(404)
    expect(await statusOf(textUpdate(2, 11, '2'), { path: '/from-telegram?any=query' })).toBe(200)
    expect(idsOf()).toEqual(['telegram:update:2'])
  })

  it('is put off with 503 before the channel is started and after it is stopped', async () => {
    const before = await statusOf(textUpdate(1, 11, '2'))
    await opened.rig.start()
    await opened.rig.channel.stop()
    expect([before, await statusOf(textUpdate(1, 11, '2'))]).toEqual([503, 503])
    expect(opened.rig.received).toEqual([])
  })

  it('concerns nobody where it has a shape that nobody foresaw, and holds nobody up', async () => {
    await opened.rig.start()
    const shapes = [{ message: 7, callback_query: null }, { message: { text: 'no chat' } }, { callback_query: {} }, { poll: {} }, {}]
    expect(await Promise.all(shapes.map((shape, index) => statusOf({ update_id: 9 + index, ...shape })))).toEqual(shapes.map(() => 200))
    expect(opened.rig.received).toEqual([])
  })
})

describe('an update', () => {
  it('is answered with 200 only once it is committed, however long the store stalls (check 13)', async () => {
    const gate = new Gate()
    await opened.rig.start(() => gate.opened)
    const call = statusOf(textUpdate(1, 11, '2'))
    const followed = follow(call)
    await opened.rig.receive(1)
    await bring('', { method: 'GET' })
    const whileStalled = followed.status
    gate.open()
    expect([whileStalled, await call]).toEqual([null, 200])
  })

  it('is put off after 50 s of a stalled store, and its repeat gets 200 once the first is committed (check 13)', async () => {
    const gate = new Gate()
    await opened.rig.start(() => gate.opened)
    const first = statusOf(textUpdate(1, 11, '2'))
    await opened.rig.receive(1)
    await opened.rig.time.pass(50_000)
    const repeat = statusOf(textUpdate(1, 11, '2'))
    await bring('', { method: 'GET' })
    gate.open()
    expect([await first, await repeat, idsOf()]).toEqual([503, 200, ['telegram:update:1']])
  })

  it('brought ten times at once is handed on once, and every call is answered with 200 (check 1)', async () => {
    const gate = new Gate()
    await opened.rig.start(() => gate.opened)
    const calls = Array.from({ length: 10 }, () => statusOf(textUpdate(5, 11, '2')))
    await opened.rig.receive(1)
    gate.open()
    expect([await Promise.all(calls), await statusOf(textUpdate(5, 11, '2')), idsOf()]).toEqual([Array.from({ length: 10 }, () => 200), 200, ['telegram:update:5']])
  })

  it('with an id far below the last one is handled (check 2)', async () => {
    await opened.rig.start()
    expect([await statusOf(textUpdate(900_000, 11, 'a')), await statusOf(textUpdate(40, 11, 'b'))]).toEqual([200, 200])
    expect(idsOf()).toEqual(['telegram:update:900000', 'telegram:update:40'])
  })

  it('that always throws is tried five times, parked and answered with 200, and the chat goes on (check 5)', async () => {
    const failure = Object.assign(new Error('the text: my arm is numb'), { code: 'flow-broken' })
    await opened.rig.start(async (inbound) => {
      if (inbound.id === 'telegram:update:1') throw failure
    })
    const bad = statusOf(textUpdate(1, 11, 'bad'))
    for (const ms of [250, 1_000, 4_000, 16_000]) await opened.rig.time.pass(ms)
    expect([await bad, await statusOf(textUpdate(2, 11, 'good'))]).toEqual([200, 200])
    expect(idsOf()).toEqual([...Array.from({ length: 5 }, () => 'telegram:update:1'), 'telegram:update:2'])
    expect(opened.rig.parked).toEqual([[1, 'flow-broken']])
    expect(JSON.stringify([opened.rig.notes, opened.log.lines])).not.toContain('numb')
  })

  it('is neither parked nor answered with 200 while the store is away', async () => {
    let isAway = true
    await opened.rig.start(async () => {
      if (isAway) throw new StoreError('full', 'The disc is full')
    })
    const call = statusOf(textUpdate(1, 11, '2'))
    const followed = follow(call)
    for (const ms of [250, 1_000, 4_000, ...Array<number>(8).fill(5_000)]) await opened.rig.time.pass(ms)
    await opened.rig.receive(12)
    const whileAway = followed.status
    isAway = false
    // Just short of the 50 s after which it would be put off.
    await turnUntil(() => opened.rig.time.remaining().includes(5_000), 'the next try')
    await opened.rig.time.pass(4_750)
    await opened.rig.time.pass(250)
    expect([whileAway, await call, opened.rig.parked, await statusOf(textUpdate(1, 11, '2'))]).toEqual([null, 503, [], 200])
  })

  it('waits behind an earlier one of its chat, and another chat’s waits for neither (check 6)', async () => {
    const gate = new Gate()
    const finished: string[] = []
    await opened.rig.start(async (inbound) => {
      if (inbound.id === 'telegram:update:1') await gate.opened
      finished.push(inbound.id)
    })
    const slow = statusOf(textUpdate(1, 11, 'first'))
    await opened.rig.receive(1)
    const behind = statusOf(textUpdate(2, 11, 'second'))
    const other = await statusOf(textUpdate(3, 12, 'other'))
    const before = [...finished]
    gate.open()
    expect([other, before, opened.rig.time.now()]).toEqual([200, ['telegram:update:3'], 0])
    expect([await slow, await behind, finished]).toEqual([200, 200, [3, 1, 2].map((id) => `telegram:update:${id}`)])
  })
})

describe('a press', () => {
  it('is answered at once though the queue of its chat is busy (check 7)', async () => {
    const gate = new Gate()
    opened.rig.api.plan('answerCallbackQuery', accept)
    await opened.rig.start(() => gate.opened)
    const slow = statusOf(textUpdate(1, 11, 'slow'))
    await opened.rig.receive(1)
    const press = statusOf(pressUpdate(2, 11, 'pain:3'))
    await turnUntil(() => opened.rig.api.calls.some(({ method }) => method === 'answerCallbackQuery'), 'the answer to the press')
    expect([opened.rig.time.now(), idsOf()]).toEqual([0, ['telegram:update:1']])
    gate.open()
    expect([await slow, await press, idsOf()]).toEqual([200, 200, ['telegram:update:1', 'telegram:update:2']])
  })

  it('counts though its answer came too late (check 8)', async () => {
    opened.rig.api.plan('answerCallbackQuery', refuse(400, 'Bad Request: query is too old and response timeout expired or query ID is invalid'))
    await opened.rig.start()
    expect(await statusOf(pressUpdate(2, 11, 'pain:3'))).toBe(200)
    expect(opened.rig.received.map(({ kind }) => kind)).toEqual(['press'])
    await turnUntil(() => opened.rig.notes.length === 1, 'a note of the failed answer')
  })
})

describe('stopping', () => {
  it('finishes what runs with 200, puts the rest off with 503, and leaves the webhook set (check 4)', async () => {
    const gate = new Gate()
    await opened.rig.start(() => gate.opened)
    const running = statusOf(textUpdate(1, 11, 'running'))
    await opened.rig.receive(1)
    const waiting = statusOf(textUpdate(2, 11, 'waiting'))
    await bring('', { method: 'GET' })
    const stopped = opened.rig.channel.stop()
    const late = await statusOf(textUpdate(3, 12, 'late'))
    gate.open()
    await stopped
    expect([await running, await waiting, late, idsOf()]).toEqual([200, 503, 503, ['telegram:update:1']])
    expect(opened.rig.api.calls.map(({ method }) => method)).toEqual(['getMe', 'setWebhook'])
  })
})
