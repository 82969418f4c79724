// Whether the line stands: every poll that is answered says so, and none that is not.
import { expect, it, onTestFinished } from 'vitest'
import { createTelegramChannel } from '#src/channels/telegram/telegram-channel.ts'
import { turnUntil } from '#tests/support/event-loop.ts'
import { textUpdate } from '#tests/support/telegram-updates.ts'
import { apiRoot, createTelegramApi, refuse, token } from '#tests/support/telegram-api.ts'
import { createVirtualWait } from '#tests/support/virtual-wait.ts'

it('is heard at each answered poll, and not at one that is refused or breaks off', async () => {
  const time = createVirtualWait()
  const api = createTelegramApi(time)
  let heard = 0
  const channel = createTelegramChannel({ token, apiRoot, wait: time.wait, onHeard: () => (heard += 1) })
  onTestFinished(async () => {
    await channel.stop()
    api.close()
  })
  api.plan('getUpdates', refuse(500, 'Internal Server Error'), { kind: 'drop' })
  await channel.start(async () => undefined, (error) => {
    throw error
  })
  await turnUntil(() => api.polls.length === 1, 'the first poll')
  await time.pass(1000)
  await turnUntil(() => api.polls.length === 2, 'the second poll')
  await time.pass(2000)
  await turnUntil(() => api.polls.length === 3, 'the third poll')
  const whileDown = heard
  await turnUntil(() => heard === 1, 'an answered poll')
  expect(whileDown).toBe(0)
})

it('has caught up when what a poll brought is handled, and not while the server has more', async () => {
  const time = createVirtualWait()
  const api = createTelegramApi(time)
  const seen: string[] = []
  const note = (what: string) => () => void seen.push(what)
  const channel = createTelegramChannel({ token, apiRoot, wait: time.wait, onHeard: note('heard'), onCaughtUp: note('caught up') })
  onTestFinished(async () => {
    await channel.stop()
    api.close()
  })
  // The server gives a hundred at once: https://core.telegram.org/bots/api#getupdates, `limit`.
  api.push(...Array.from({ length: 101 }, (_, index) => textUpdate(index + 1, index + 1, 'here')))
  await channel.start(
    async ({ id }) => void seen.push(id.replace('telegram:update:', '')),
    (error) => {
      throw error
    },
  )
  await turnUntil(() => seen.includes('caught up'), 'what there was is handled')

  const first = Array.from({ length: 100 }, (_, index) => String(index + 1))
  expect(seen).toEqual(['heard', ...first, 'heard', '101', 'caught up'])
})
