// The double of the Bot API keeps the published rules (https://core.telegram.org/bots/api); where a rule is in no page, the
// double's own files say where it comes from.
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import type { Update } from 'grammy/types'
import { describe, expect, it, onTestFinished } from 'vitest'
import { publishedLimits } from '#tests/support/bot-api/flood-limits.ts'
import type { CallMoment } from '#tests/support/bot-api/bot-api-double.ts'
import { openDoubleRig, type CallResult, type DoubleRig } from '#tests/support/bot-api/double-rig.ts'
import { flush } from '#tests/support/manual-clock.ts'
import { turnUntil } from '#tests/support/event-loop.ts'
import { groupUpdate } from '#tests/support/telegram-updates.ts'

const chat = 500
const other = 501
const hourMs = 3_600_000

function idsOf({ body }: CallResult): readonly number[] {
  return (body.result as readonly Update[]).map(({ update_id: id }) => id)
}

async function openWithChats(options: Parameters<typeof openDoubleRig>[0] = {}): Promise<DoubleRig> {
  const rig = await openDoubleRig(options)
  rig.double.say(chat, 'hello')
  rig.double.say(other, 'hello')
  return rig
}

describe('getUpdates', () => {
  it('gives what was not confirmed again and again, and forgets everything below an offset for good', async () => {
    const { double, call } = await openDoubleRig()
    const [first, second, third] = ['one', 'two', 'three'].map((text) => double.say(chat, text))
    const unconfirmed = [await call('getUpdates'), await call('getUpdates')]
    const limited = await call('getUpdates', { limit: 1 })
    const confirmed = await call('getUpdates', { offset: second! + 1 })
    const later = await call('getUpdates', { offset: first })

    expect(unconfirmed.map(idsOf)).toEqual([[first, second, third], [first, second, third]])
    expect([limited, confirmed, later].map(idsOf)).toEqual([[first], [third], [third]])
    expect(idsOf(await call('getUpdates', { offset: -1 }))).toEqual([third])
  })

  it('waits for as long as it is told, and is answered as soon as something comes', async () => {
    const { double, call, clock } = await openDoubleRig()
    const empty = call('getUpdates', { timeout: 30 })
    await turnUntil(() => double.isPolled, 'the poll waits')
    await clock.advance(30_000)
    expect(idsOf(await empty)).toEqual([])

    const waiting = call('getUpdates', { timeout: 30 })
    await turnUntil(() => double.isPolled, 'the poll waits')
    const id = double.say(chat, 'at last')
    expect(idsOf(await waiting)).toEqual([id])
  })

  it('is ended with 409 by a newer one, and refused while a webhook is set', async () => {
    const { double, call } = await openDoubleRig()
    const older = call('getUpdates', { timeout: 30 })
    await turnUntil(() => double.isPolled, 'the poll waits')
    const newer = call('getUpdates', { timeout: 0 })
    expect([(await older).status, (await newer).status]).toEqual([409, 200])

    const held = call('getUpdates', { timeout: 30 })
    await turnUntil(() => double.isPolled, 'the poll waits')
    double.setWebhook('http://127.0.0.1:9')
    expect([(await held).status, (await call('getUpdates')).status]).toEqual([409, 409])
    await call('deleteWebhook')
    expect((await call('getUpdates')).status).toBe(200)
  })

  it('keeps the kinds that were last asked for, and says nothing of what was there before', async () => {
    const { double, call } = await openDoubleRig()
    const before = double.say(chat, 'one')
    expect(idsOf(await call('getUpdates', { allowed_updates: ['callback_query'] }))).toEqual([before])
    double.say(chat, 'not asked for')
    const press = double.pressData(chat, 'p:1:yes')
    expect(idsOf(await call('getUpdates', { offset: before + 1 }))).toEqual([press])
  })

  it('drops updates older than a day and presses older than 150 s', async () => {
    const { double, call, clock } = await openDoubleRig()
    const said = double.say(chat, 'hello')
    const press = double.pressData(chat, 'p:1:yes')
    await clock.advance(150_000)
    expect(idsOf(await call('getUpdates'))).toEqual([said, press])
    await clock.advance(1)
    expect(idsOf(await call('getUpdates'))).toEqual([said])
    await clock.advance(24 * hourMs - 150_000)
    expect(idsOf(await call('getUpdates'))).toEqual([])
    expect(double.dropped.map(({ update_id: id }) => id)).toEqual([press, said])
  })

  it('forgets a poll whose caller has gone', async () => {
    const { double } = await openDoubleRig()
    const leave = new AbortController()
    const poll = fetch(`${double.root}/bot4242:secret-of-the-bot/getUpdates?timeout=30`, { signal: leave.signal }).catch(() => 'gone')
    await turnUntil(() => double.isPolled, 'the poll waits')
    leave.abort()
    expect(await poll).toBe('gone')
    await turnUntil(() => !double.isPolled, 'the server has noticed')
  })
})

describe('a message', () => {
  it.each([
    ['no text', { text: '' }, '400 Bad Request: message text is empty'],
    ['4096 units', { text: 'x'.repeat(4096) }, null],
    ['4097 units', { text: 'x'.repeat(4097) }, '400 Bad Request: message is too long'],
    // Two units each.
    ['2049 signs beyond the basic plane', { text: '🙂'.repeat(2049) }, '400 Bad Request: message is too long'],
    ['half a pair', { text: '\ud83d' }, '400 Bad Request: strings must be encoded in UTF-8'],
    ['64 bytes of data', { text: 'a', reply_markup: keyboard('ä'.repeat(32)) }, null],
    ['65 bytes of data', { text: 'a', reply_markup: keyboard(`${'ä'.repeat(32)}x`) }, '400 Bad Request: BUTTON_DATA_INVALID'],
    ['no data', { text: 'a', reply_markup: keyboard('') }, '400 Bad Request: BUTTON_DATA_INVALID'],
    ['an unknown chat', { text: 'a', chat_id: 999 }, '400 Bad Request: chat not found'],
    ['a malformed chat', { text: 'a', chat_id: {} }, "400 Bad Request: can't parse chat_id"],
    ['an unknown parameter', { text: 'a', txet: 'b' }, '400 Bad Request: unknown parameter txet'],
    ['a text that is a number', { text: 5 }, "400 Bad Request: can't parse text"],
  ])('with %s is taken or refused', async (_what, payload, refused) => {
    const { double, refusal } = await openWithChats()
    expect(await refusal('sendMessage', { chat_id: chat, ...payload })).toBe(refused)
    expect(double.messages(chat)).toHaveLength(refused === null ? 1 : 0)
  })

  it('is edited in place and loses its buttons; the same content again is no edit', async () => {
    const { double, call, refusal } = await openWithChats()
    const sent = (await call('sendMessage', { chat_id: chat, text: 'pain?', reply_markup: keyboard('p:1:2') })).body.result as { message_id: number }
    const edit = { chat_id: chat, message_id: sent.message_id, text: 'pain?\n→ 2' }
    expect(await refusal('editMessageText', edit)).toBeNull()
    expect(await refusal('editMessageText', edit)).toMatch(/^400 Bad Request: message is not modified/)
    expect(await refusal('editMessageText', { ...edit, chat_id: other })).toBe('400 Bad Request: message to edit not found')
    expect(double.messages(chat)).toMatchObject([{ text: 'pain?\n→ 2', buttons: [], edits: 1, sent: { text: 'pain?', buttons: [{ data: 'p:1:2' }] } }])
  })

  it('to somebody who has blocked the bot, or is gone, is refused with 403 until they come back', async () => {
    const { double, refusal } = await openWithChats()
    const send = (): Promise<string | null> => refusal('sendMessage', { chat_id: chat, text: 'hello' })
    double.block(chat)
    const blocked = await send()
    double.unblock(chat)
    const back = await send()
    double.deactivate(chat)
    expect([blocked, back, await send()]).toEqual(['403 Forbidden: bot was blocked by the user', null, '403 Forbidden: user is deactivated'])
    expect(double.pending().flatMap(({ my_chat_member: member }) => member?.new_chat_member.status ?? [])).toEqual(['kicked', 'member'])
  })
})

describe('the limits', () => {
  it('take a burst to one chat and then one a second, and ask for patience in whole seconds', async () => {
    const { call, refusal, clock } = await openWithChats({ limits: publishedLimits })
    const send = (): Promise<string | null> => refusal('sendMessage', { chat_id: chat, text: 'hello' })
    const burst = []
    for (let count = 0; count < 6; count += 1) burst.push(await send())
    const refused = await call('sendMessage', { chat_id: chat, text: 'hello' })
    expect(burst).toEqual([null, null, null, null, null, '429 Too Many Requests: retry after 1'])
    expect(refused.body.parameters).toEqual({ retry_after: 1 })
    expect(await refusal('sendMessage', { chat_id: other, text: 'hello' })).toBeNull()
    await clock.advance(1000)
    expect([await send(), await send()]).toEqual([null, '429 Too Many Requests: retry after 1'])
  })

  it('take thirty a second over all chats', async () => {
    const { double, refusal } = await openDoubleRig({ limits: publishedLimits })
    const sent = []
    for (let number = 0; number < 31; number += 1) {
      double.say(number, 'hello')
      sent.push(await refusal('sendMessage', { chat_id: number, text: 'hello' }))
    }
    expect(sent).toEqual([...Array<null>(30).fill(null), '429 Too Many Requests: retry after 1'])
  })
})

describe('a press', () => {
  it('is answered within 150 s, and then found too old', async () => {
    const { double, call, refusal, clock } = await openDoubleRig()
    double.pressData(chat, 'p:1:yes')
    const [{ callback_query: query }] = (await call('getUpdates')).body.result as [Update]
    const answer = (): Promise<string | null> => refusal('answerCallbackQuery', { callback_query_id: query!.id })
    const inTime = await answer()
    await clock.advance(150_001)
    const tooOld = '400 Bad Request: query is too old and response timeout expired or query ID is invalid'
    expect([inTime, await answer(), await refusal('answerCallbackQuery', { callback_query_id: 'invented' })]).toEqual([null, tooOld, tooOld])
  })

  it('carries the data of the newest button of its label', async () => {
    const { double, call } = await openWithChats()
    for (const data of ['p:1:yes', 'p:2:yes']) await call('sendMessage', { chat_id: chat, text: data, reply_markup: keyboard(data) })
    double.press(chat, 'press me')
    expect(double.pending().at(-1)?.callback_query?.data).toBe('p:2:yes')
    expect(() => double.press(other, 'press me')).toThrow('no button "press me" was ever in chat 501')
  })
})

describe('the token', () => {
  it('is refused with 401 where it is another one, and with 404 where it is none', async () => {
    const { call } = await openDoubleRig()
    const statuses = [await call('getMe', {}, '4242:another'), await call('getMe', {}, 'nonsense'), await call('sendDice')]
    expect(statuses.map(({ status }) => status)).toEqual([401, 404, 404])
  })
})

describe('the line', () => {
  it('breaks before or after the effect, answers late or with a page, as it is planned', async () => {
    const { double, call, clock } = await openWithChats()
    const send = (text: string): Promise<CallResult | 'broken'> => call('sendMessage', { chat_id: chat, text }).catch(() => 'broken' as const)
    double.plan('sendMessage', { kind: 'cut-before' }, { kind: 'cut-after' }, { kind: 'page', status: 502 }, { kind: 'refuse', code: 500, description: 'Internal Server Error' }, null)
    const answers = [await send('one'), await send('two'), await send('three'), await send('four'), await send('five')]
    expect(answers.map((answer) => (answer === 'broken' ? answer : answer.status))).toEqual(['broken', 'broken', 502, 500, 200])
    expect(double.messages(chat).map(({ text }) => text)).toEqual(['two', 'five'])

    double.plan('sendMessage', { kind: 'slow', ms: 9000 })
    let isAnswered = false
    const late = send('six').then(() => (isAnswered = true))
    await turnUntil(() => clock.waits.includes(9000), 'the answer waits')
    const before = isAnswered
    await clock.advance(9000)
    await late
    expect([before, double.messages(chat).at(-1)?.text]).toEqual([false, 'six'])
  })

  it('keeps silent for good, with or without the effect, until the caller leaves', async () => {
    const { double } = await openWithChats()
    double.setLine({ kind: 'silence' })
    double.plan('sendMessage', { kind: 'silence-after' })
    const leave = new AbortController()
    const send = (text: string): Promise<unknown> =>
      fetch(`${double.root}/bot4242:secret-of-the-bot/sendMessage?chat_id=${chat}&text=${text}`, { signal: leave.signal }).catch(() => 'left')
    const both = [send('one')]
    await turnUntil(() => double.messages(chat).length === 1, 'the first had its effect')
    both.push(send('two'))
    await turnUntil(() => double.calls.length === 2, 'both have arrived')
    leave.abort()
    expect(await Promise.all(both)).toEqual(['left', 'left'])
    expect(double.messages(chat).map(({ text }) => text)).toEqual(['one'])
  })

  it('tells at which moment a call is', async () => {
    const moments: CallMoment[] = []
    const { double, call } = await openDoubleRig({ observe: (moment) => void moments.push(moment) })
    double.say(chat, 'hello')
    await call('getUpdates')
    await call('sendMessage', { chat_id: chat, text: 'hello' })
    await turnUntil(() => moments.length === 6, 'the last answer is out')
    expect(moments.map(({ method, phase, updates }) => [method, phase, updates])).toEqual([
      ['getUpdates', 'arrived', 0],
      ['getUpdates', 'done', 1],
      ['getUpdates', 'answered', 1],
      ['sendMessage', 'arrived', 0],
      ['sendMessage', 'done', 0],
      ['sendMessage', 'answered', 0],
    ])
  })
})

describe('a webhook', () => {
  it('gets one chat’s updates in order and other chats meanwhile, with the secret, until it has said 200', async () => {
    const { double, call, clock } = await openDoubleRig()
    const hook = await openHook()
    await call('setWebhook', { url: hook.url, secret_token: 'agreed_secret-1', allowed_updates: ['message'] })
    hook.refuseNext(2)
    const first = double.say(chat, 'one')
    const second = double.say(chat, 'two')
    const third = double.say(other, 'three')
    await turnUntil(() => hook.got.length === 2, 'both chats were tried')
    const triedAtOnce = hook.got.map(({ id }) => id)
    await clock.advance(999)
    await flush()
    const tooEarly = hook.got.length
    await clock.advance(1)
    await turnUntil(() => double.pending().length === 0, 'everything was taken')

    expect(triedAtOnce).toEqual([first, third])
    expect(tooEarly).toBe(2)
    expect(hook.got.filter(({ chat: of }) => of === chat).map(({ id }) => id)).toEqual([first, first, second])
    expect(new Set(hook.got.map(({ secret }) => secret))).toEqual(new Set(['agreed_secret-1']))
    const info = (await call('getWebhookInfo')).body.result as Record<string, unknown>
    expect(info).toMatchObject({ url: hook.url, pending_update_count: 0, last_error_message: 'Wrong response from the webhook: 503', allowed_updates: ['message'] })
  })

  it('is tried again after 1, 2, 4 and so on to 60 seconds, and no more once the update is too old', async () => {
    const { double, clock } = await openDoubleRig()
    const hook = await openHook()
    double.setWebhook(hook.url)
    hook.refuseNext(1000)
    double.push({ ...groupUpdate(1, -100, 'hello') })
    const waits: number[] = []
    while (waits.length < 8) {
      // The limit within which an answer is awaited is no wait between tries.
      await turnUntil(() => double.deliveries.length === waits.length + 1 && clock.waits.length === 1, 'the next try failed')
      waits.push(clock.waits[0]!)
      await clock.advance(clock.waits[0]!)
    }
    expect(waits).toEqual([1, 2, 4, 8, 16, 32, 60, 60].map((seconds) => seconds * 1000))
    await turnUntil(() => clock.waits.length === 1 && double.deliveries.length === 9, 'the next try failed')
    clock.jump(24 * hourMs)
    await clock.advance(60_000)
    expect([double.pending(), double.dropped.length, double.deliveries.length]).toEqual([[], 1, 9])
  })

  it.each([
    ['a secret with a space', { url: 'https://example.invalid', secret_token: 'two words' }],
    ['a secret of 257 letters', { url: 'https://example.invalid', secret_token: 'x'.repeat(257) }],
    ['an empty secret', { url: 'https://example.invalid', secret_token: '' }],
    ['an address that is none', { url: 'example' }],
    ['a hundred and one connections', { url: 'https://example.invalid', max_connections: 101 }],
  ])('is not set with %s', async (_what, payload) => {
    const { call } = await openDoubleRig()
    expect((await call('setWebhook', payload)).status).toBe(400)
    expect((await call('getWebhookInfo')).body.result).toMatchObject({ url: '' })
  })
})

function keyboard(data: string) {
  return { inline_keyboard: [[{ text: 'press me', callback_data: data }]] }
}

interface Hook {
  readonly url: string
  readonly got: readonly { readonly id: number; readonly chat: number; readonly secret: unknown }[]
  refuseNext(count: number): void
}

async function openHook(): Promise<Hook> {
  const got: Hook['got'][number][] = []
  let refusals = 0
  const server = createServer((request, response) => {
    void readUpdate(request).then((update) => {
      got.push({ id: update.update_id, chat: update.message?.chat.id ?? 0, secret: request.headers['x-telegram-bot-api-secret-token'] })
      refusals -= 1
      response.writeHead(refusals >= 0 ? 503 : 200).end()
    })
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  onTestFinished(() => {
    server.closeAllConnections()
    server.close()
  })
  return { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/hook`, got, refuseNext: (count) => void (refusals = count) }
}

async function readUpdate(request: AsyncIterable<Buffer | string>): Promise<Update> {
  let text = ''
  for await (const part of request) text += part.toString()
  return JSON.parse(text) as Update
}
