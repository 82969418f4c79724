// One update on which everything of ours fails must cost neither the chat nor the others, and a person has to hear of it.
import { describe, expect, it } from 'vitest'
import { StoreError } from '#src/ports/store.ts'
import { textUpdate } from '#tests/support/telegram-updates.ts'
import { client, colleague, mondaySession, openStaffedClinic } from './telegram-people.ts'

describe('an update that always throws', () => {
  it('is tried five times and parked, the operator is told without a word of it, and the chat goes on', async () => {
    const clinic = await openStaffedClinic()
    await clinic.advanceTo(mondaySession)
    const bad = clinic.nextUpdateId()
    const apply = clinic.store.apply.bind(clinic.store)
    let tries = 0
    clinic.store.apply = (id, event, decide) => {
      if (event !== `telegram:update:${bad}`) return apply(id, event, decide)
      tries += 1
      return Promise.reject(new StoreError('damaged', 'documents/chart-1.json is damaged.'))
    }
    const before = clinic.sentTo(client).length
    clinic.api.push(textUpdate(bad, client, 'my cat sat on the band'), textUpdate(clinic.nextUpdateId(), client, 'ready'), textUpdate(clinic.nextUpdateId(), colleague, 'hello'))
    for (const ms of [250, 1_000, 4_000, 16_000]) await clinic.lineTime.pass(ms)
    await clinic.settle()

    // The delivery itself asks a store once more each time.
    expect(tries).toBe(2 * 5)
    expect(clinic.sentTo(client).slice(before).map(({ text }) => text)).toEqual(['First the safety check. Since last time, is any of this new or worse?'])
    expect(clinic.sentTo(colleague).map(({ text }) => text.slice(0, 54))).toEqual(['Hello. I only talk with people who have an invitation.'])
    expect(clinic.log.lines.filter(({ level }) => level === 'error')).toEqual([{ level: 'error', event: 'telegram-update-parked', fields: { code: 'damaged' } }])
    expect(JSON.stringify(clinic.log.lines)).not.toContain('cat')
  })
})
