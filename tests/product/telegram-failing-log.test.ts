// A whole session over a network and a disk that fail, with words that are found again: none of them reaches the log.
import { describe, expect, it } from 'vitest'
import { createApp, createTelegram } from '#src/app.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'
import { textUpdate } from '#tests/support/telegram-updates.ts'
import { apiRoot, createTelegramApi, refuse, token } from '#tests/support/telegram-api.ts'
import { createVirtualWait } from '#tests/support/virtual-wait.ts'
import { ManualClock } from '#tests/support/manual-clock.ts'
import { turnUntil } from '#tests/support/event-loop.ts'
import { brandAs, type EventId } from '#src/domain/identifier.ts'
import { createMemoryStore } from '#src/stores/memory/memory-store.ts'
import { clinicId } from '#src/chart/clinic.ts'
import { digestOf } from '#src/chart/digest.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { diskError, FragileDisk } from '#tests/support/fragile-disk.ts'
import { product } from '#tests/support/telegram-clinic.ts'
import { client, goToFirstSet, mondaySession, openStaffedClinic, stranger } from './telegram-people.ts'

const marked = ['xylophone', 'Orla', 'Tiernan', 'Maren', String(client), String(stranger), token, 'drooping']

describe('the log of a session in which much goes wrong', () => {
  it('holds no word, name, address or token, and nothing of what somebody has', async () => {
    const clinic = await openStaffedClinic()
    await goToFirstSet(clinic, mondaySession)
    clinic.api.plan('sendMessage', refuse(400, 'Bad Request: xylophone of Orla Tiernan'))
    await clinic.say(client, 'xylophone, what does it mean?')
    clinic.api.plan('sendMessage', refuse(403, `Forbidden: ${client} of Maren Holt`))
    await clinic.say(client, 'half my face is drooping')
    await clinic.say(stranger, '/start xylophone')

    const logged = JSON.stringify(clinic.log.lines)
    expect(clinic.log.events()).toContain('send-refused')
    expect(marked.filter((word) => logged.includes(word))).toEqual([])
  })

  it('names neither chat nor update where the store is away', async () => {
    const api = createTelegramApi(createVirtualWait())
    const disk = new FragileDisk()
    const log = new RecordingLog()
    const clock = new ManualClock(mondaySession)
    const store = createMemoryStore(disk, documentMigrations)
    await store.open()
    api.serve('sendMessage')
    const app = createApp({ product, store, channels: [createTelegram({ token, apiRoot, webhook: null }, log)], clock, log, wait: clock.wait })
    await app.delivery.submit(clinicId, { id: brandAs<EventId>('claim'), kind: 'claim-issued', digest: digestOf('XYLOPHONE-1') })
    await app.start(() => undefined)
    disk.beforePut = () => {
      throw diskError('EIO')
    }
    api.push(textUpdate(987_654_321, client, 'XYLOPHONE-1'))
    await turnUntil(() => log.events().includes('telegram-update-failed'), 'a failed update')
    disk.beforePut = () => undefined
    await app.stop()
    await store.close()
    api.close()

    const logged = JSON.stringify(log.lines)
    expect(log.events()).toContain('store-failed')
    expect(['987654321', String(client), 'XYLOPHONE', token].filter((word) => logged.includes(word))).toEqual([])
  })
})
