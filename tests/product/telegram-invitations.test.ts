import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { groupPressUpdate, groupUpdate, migrationUpdate } from '#tests/support/telegram-updates.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { chartOf, client, goToFirstSet, mondayNoon, openClinic, openStaffedClinic, settleIn, stranger } from './telegram-people.ts'

const dayMs = 24 * 3_600_000
const unusable = 'This invitation cannot be used. It may have been used before or be too old. Please ask your therapist for a new one.'

/** Everything that stands in a data folder. */
async function textIn(folder: string): Promise<string> {
  const names = await readdir(folder, { recursive: true, withFileTypes: true })
  const files = names.filter((name) => name.isFile()).map((name) => readFile(join(name.parentPath, name.name), 'utf8'))
  return (await Promise.all(files)).join('\n')
}

describe('an invitation', () => {
  it.each([
    ['used before', (token: string) => token, 0],
    ['altered', (token: string) => `${token.slice(0, -1)}${token.endsWith('A') ? 'B' : 'A'}`, 0],
    ['longer than any', (token: string) => token.padEnd(80, 'x'), 0],
    ['expired', (token: string) => token, 8 * dayMs],
  ])('that is %s links nobody and names nobody', async (_what, alter, laterMs) => {
    const clinic = await openClinic()
    await settleIn(clinic)
    const { token } = await clinic.enrol()
    if (laterMs === 0) await clinic.say(client, `/start ${token}`)
    await clinic.advanceTo(mondayNoon + laterMs)
    await clinic.say(stranger, `/start ${alter(token)}`)

    expect(clinic.sentTo(stranger)).toEqual([{ chat: stranger, text: unusable, buttons: [] }])
    expect(await clinic.store.findByContact({ channel: 'telegram', address: String(stranger) })).toBeNull()
    expect((await chartOf(clinic)).contact).toEqual(laterMs === 0 ? { channel: 'telegram', address: String(client) } : null)
  })

  it('opens nothing in a chat that has its own record', async () => {
    const clinic = await openStaffedClinic()
    const { token } = await clinic.enrol()
    const before = (await clinic.store.heads()).map(({ id, contacts }) => ({ id, contacts }))
    await clinic.say(client, `/start ${token}`)

    expect(clinic.lastTo(client).text).toBe('This chat is already in use here. An invitation opens a new chat only.')
    expect((await clinic.store.heads()).map(({ id, contacts }) => ({ id, contacts }))).toEqual(before)
  })
})

describe('a chat that nobody invited', () => {
  it('is told how to get an invitation, and nothing of it is stored', async () => {
    const folder = await makeTemporaryFolder()
    const clinic = await openClinic(folder)
    await settleIn(clinic)
    const before = await clinic.store.heads()
    const clinicBefore = await clinic.store.read(before[0]!.id)
    await clinic.say(stranger, '/start')
    await clinic.say(stranger, 'xylophone in my neck since yesterday')
    await clinic.say(stranger, 'the worst headache of my life')

    const told = 'Hello. I only talk with people who have an invitation.'
    expect(clinic.sentTo(stranger).map(({ text }) => text.slice(0, told.length))).toEqual([told, told, told])
    expect(await clinic.store.heads()).toEqual(before)
    expect(await clinic.store.read(before[0]!.id)).toEqual(clinicBefore)
    await clinic.restart()
    const stored = await textIn(folder)
    expect(stored).toContain('Maren Holt')
    expect([stored.includes('xylophone'), stored.includes(String(stranger))]).toEqual([false, false])
  })
})

describe('a group', () => {
  const group = -100_500

  it('hears once that nothing is talked about there; words and presses in it change nothing', async () => {
    const clinic = await openStaffedClinic()
    await goToFirstSet(clinic)
    const before = await chartOf(clinic)
    const others = clinic.sent().length
    await clinic.push(groupUpdate(clinic.nextUpdateId(), group, 'my arm is numb'))
    await clinic.push(groupUpdate(clinic.nextUpdateId(), group, 'pain 9'))
    await clinic.push(groupPressUpdate(clinic.nextUpdateId(), group, clinic.dataOf(client, 'Done')))

    expect(clinic.sent().slice(others)).toEqual([
      {
        chat: group,
        text: 'Several people may read along here, so I do not talk about training in groups. Please write to me in a chat of our own.',
        buttons: [],
      },
    ])
    expect(await chartOf(clinic)).toEqual(before)
    expect(JSON.stringify(await clinic.store.heads())).not.toContain(String(group))
  })

  it('that becomes a supergroup is not told again, and breaks nothing', async () => {
    const clinic = await openStaffedClinic()
    const supergroup = -100_900
    await clinic.push(groupUpdate(clinic.nextUpdateId(), group, 'hello'))
    const told = clinic.sent().length
    await clinic.push(migrationUpdate(clinic.nextUpdateId(), group, supergroup), groupUpdate(clinic.nextUpdateId(), supergroup, 'my arm is numb'))
    const afterwards = clinic.sent().slice(told)
    const answered = await clinic.during(client, () => clinic.say(client, 'help'))

    expect(afterwards).toEqual([])
    expect(answered).toHaveLength(1)
    expect(JSON.stringify(await clinic.store.heads())).not.toContain(String(supergroup))
  })
})
