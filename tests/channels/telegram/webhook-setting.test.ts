import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ChannelError } from '#src/ports/channel.ts'
import { turnUntil } from '#tests/support/event-loop.ts'
import { refuse, token, type ApiReply } from '#tests/support/telegram-api.ts'
import { textUpdate } from '#tests/support/telegram-updates.ts'
import { hook, openWebhookRig, type WebhookRig } from '#tests/support/webhook-rig.ts'

let opened: WebhookRig
beforeEach(async () => {
  opened = await openWebhookRig()
})
afterEach(() => opened.close())

const methods = () => opened.rig.api.calls.map(({ method }) => method)
const setting = {
  method: 'setWebhook',
  payload: { url: hook.url, secret_token: hook.secret, max_connections: 40, allowed_updates: ['message', 'edited_message', 'callback_query', 'my_chat_member'] },
}
const info = (patch: object): ApiReply => ({ kind: 'result', result: { url: hook.url, has_custom_certificate: false, pending_update_count: 0, ...patch } })

describe('the webhook', () => {
  it('is set at the start with the secret and exactly the kinds that are handled, and nothing is polled (check 15)', async () => {
    await opened.rig.start()
    expect(opened.rig.api.calls).toEqual([{ method: 'getMe', payload: {} }, setting])
    expect(opened.rig.api.polls).toEqual([])
  })

  it.each([
    [401, 'Unauthorized', 'token-refused'],
    [400, 'Bad Request: bad webhook: HTTPS url must be provided for webhook', 'webhook-refused'],
  ])('refuses the start with one line, without token, secret or cause, where setting it is answered with %i (check 14)', async (code, words, named) => {
    opened.rig.api.plan('setWebhook', refuse(code, words))
    const error: unknown = await opened.rig.start().catch((caught: unknown) => caught)
    expect(error).toBeInstanceOf(ChannelError)
    const { code: found, cause, stack, message } = error as ChannelError
    expect({ found, cause }).toEqual({ found: named, cause: undefined })
    for (const secret of [token, hook.secret, '\n']) expect(message).not.toContain(secret)
    expect(stack).not.toContain(hook.secret)
    expect((await opened.bring(textUpdate(1, 11, '2'))).status).toBe(503)
  })

  it('is set later where the line is down at the start, and until then updates are put off', async () => {
    opened.rig.api.plan('getMe', { kind: 'drop' }, { kind: 'drop' })
    await opened.rig.start()
    const early = await opened.bring(textUpdate(1, 11, '2'))
    await opened.rig.time.pass(1_000)
    await turnUntil(() => methods().includes('setWebhook'), 'the webhook set')
    await turnUntil(() => opened.rig.heard() > 0, 'the line heard')
    expect([early.status, (await opened.bring(textUpdate(1, 11, '2'))).status]).toEqual([503, 200])
  })

  it('is asked after every minute, so that a quiet day does not look like a broken line', async () => {
    await opened.rig.start()
    await opened.rig.time.pass(60_000)
    await turnUntil(() => opened.rig.heard() === 2, 'heard again')
    await opened.rig.time.pass(60_000)
    await turnUntil(() => opened.rig.heard() === 3, 'heard again')
    expect(methods()).toEqual(['getMe', 'setWebhook', 'getWebhookInfo', 'getWebhookInfo'])
    expect(opened.rig.notes).toEqual([])
  })

  it('is set again where somebody took it away', async () => {
    await opened.rig.start()
    opened.rig.api.plan('getWebhookInfo', info({ url: '' }))
    await opened.rig.time.pass(60_000)
    await turnUntil(() => methods().length === 4, 'the webhook set again')
    expect(opened.rig.api.calls.slice(2)).toEqual([{ method: 'getWebhookInfo', payload: {} }, setting])
    expect([opened.rig.notes, opened.rig.heard()]).toEqual([[{ event: 'webhook-removed', code: 'none' }], 1])
  })

  it('is left to whoever set it to another address, and the line counts as not heard', async () => {
    await opened.rig.start()
    opened.rig.api.plan('getWebhookInfo', info({ url: 'https://other.example/' }))
    await opened.rig.time.pass(60_000)
    await turnUntil(() => opened.rig.notes.length === 1, 'a note')
    expect([opened.rig.notes, opened.rig.heard(), methods()]).toEqual([[{ event: 'webhook-replaced', code: 'none' }], 1, ['getMe', 'setWebhook', 'getWebhookInfo']])
  })

  it('counts as not heard while updates wait that Telegram could not bring, and as heard once one comes', async () => {
    const failing = info({ pending_update_count: 3, last_error_date: 1_750_000_000, last_error_message: 'Connection timed out' })
    await opened.rig.start()
    opened.rig.api.plan('getWebhookInfo', failing, failing)
    await opened.rig.time.pass(60_000)
    await turnUntil(() => opened.rig.notes.length === 1, 'a note')
    const whileFailing = opened.rig.heard()
    await opened.bring(textUpdate(1, 11, '2'))
    await opened.rig.time.pass(60_000)
    await turnUntil(() => opened.rig.heard() === 3, 'heard by the update and by the question')
    expect([whileFailing, opened.rig.notes]).toEqual([1, [{ event: 'webhook-unreached', code: 'none' }]])
  })

  it('ends with one failure when Telegram later refuses the token (check 14)', async () => {
    await opened.rig.start()
    opened.rig.api.plan('getWebhookInfo', refuse(401, 'Unauthorized'))
    await opened.rig.time.pass(60_000)
    await turnUntil(() => opened.rig.failures.length > 0, 'the failure')
    expect(opened.rig.failures.map(({ code, cause }) => [code, cause])).toEqual([['token-refused', undefined]])
  })
})
