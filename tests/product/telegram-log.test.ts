// Whatever goes wrong, the log holds counts, codes and document ids: no token, no words, no name, no sign, no chat.
import { expect, it } from 'vitest'
import { StoreError } from '#src/ports/store.ts'
import { refuse, token } from '#tests/support/telegram-api.ts'
import { textUpdate } from '#tests/support/telegram-updates.ts'
import { chartOf, client, goToFirstSet, openStaffedClinic, therapist } from './telegram-people.ts'

it('a session with a red flag in which everything fails once leaves no token, words, name, sign or chat in the log', async () => {
  const clinic = await openStaffedClinic()
  await goToFirstSet(clinic)
  const words = 'my left hand has gone numb'
  clinic.api.plan('sendMessage', { kind: 'drop' }, refuse(400, `Bad Request: cannot send "${words}"`), { kind: 'page', status: 502 }, refuse(403, 'Forbidden: bot was blocked by the user'))
  clinic.api.plan('editMessageText', { kind: 'drop' }, refuse(400, 'Bad Request: MESSAGE_ID_INVALID'))
  const update = textUpdate(clinic.nextUpdateId(), client, words)
  const apply = clinic.store.apply.bind(clinic.store)
  let failures = 2
  clinic.store.apply = (id, event, decide) => {
    if (event === `telegram:update:${update.update_id}` && failures > 0) {
      failures -= 1
      return Promise.reject(new StoreError('full', `The disk is full. (${words})`))
    }
    return apply(id, event, decide)
  }
  clinic.api.push(update)
  await clinic.lineTime.pass(250)
  for (let second = 0; second < 180; second += 1) {
    await clinic.clock.advance(1_000)
    await clinic.settle()
  }

  const { alerts, plan } = await chartOf(clinic)
  const secrets = [token, token.split(':')[1], words, 'numb', plan?.client.name, 'Orla', 'Maren', alerts[0]?.sign, alerts[0]?.title, String(client), String(therapist)]
  expect(new Set(clinic.log.events())).toEqual(new Set(['store-failed', 'telegram-update-failed', 'telegram-call-failed', 'send-refused', 'nobody-reached']))
  const logged = JSON.stringify(clinic.log.lines.map(({ event, fields }) => [event, { ...fields, document: '' }]))
  expect(secrets.filter((secret) => secret === undefined || secret === null || logged.includes(secret))).toEqual([])
})
