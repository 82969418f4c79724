// What somebody finds who gets hold of the data folder of a clinic that has a key.
import { readFile, readdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { startDemo } from '#src/commands/start/start-demo.ts'
import { readConfig } from '#src/config.ts'
import { plain, type Cipher } from '#src/stores/cipher.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { rotateKey } from '#src/stores/lowdb/rotate-key.ts'
import { readSideFile } from '#src/stores/lowdb/side-file.ts'
import { makeCipher, writeKey } from '#tests/support/data-keys.ts'
import { findReadable } from '#tests/support/folder-bytes.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'
import { TelegramClinic } from '#tests/support/telegram-clinic.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { mondayNoon, mondaySession, settleIn, stranger } from './telegram-people.ts'

const key = makeCipher(1)
/** A number long enough not to stand anywhere by chance. */
const client = stranger
const dayMs = 24 * 60 * 60_000

/** Somebody joins, trains, answers next morning, has a numb hand in the next session; whatever the process keeps meanwhile lies there. */
async function playInto(folder: string, cipher: Cipher): Promise<TelegramClinic> {
  const clinic = new TelegramClinic(folder, mondayNoon, cipher)
  await clinic.start()
  await settleIn(clinic)
  const { token } = await clinic.enrol()
  await clinic.say(client, `/start ${token}`)
  await clinic.press(client, 'Go on')
  for (const _question of ['agree', 'zone', 'time']) await clinic.press(client, 'Yes')
  await train(clinic, mondaySession)
  for (const _set of [1, 2, 3]) for (const label of ['Done', '1', 'No', '3']) await clinic.press(client, label)
  await clinic.press(client, '4')
  await clinic.advanceTo(mondaySession + 15 * 60 * 60_000)
  await clinic.say(client, '1')
  await train(clinic, mondaySession + 2 * dayMs)
  await clinic.say(client, 'my left hand has gone numb and tingly')
  return clinic
}

async function train(clinic: TelegramClinic, at: number): Promise<void> {
  await clinic.advanceTo(at)
  await clinic.press(client, 'Ready')
  await clinic.press(client, 'None of these')
  while (clinic.lastTo(client).buttons.some(({ label }) => label === '10')) await clinic.press(client, '1')
  await clinic.press(client, 'Done')
}

/** Names, addresses, words said and written, answers, the plan, the messages sent, and the names of fields. */
const words = ['Orla', 'Tiernan', 'Maren Holt', `${client}`, 'Dublin', 'tingly', 'steady', 'extension', 'telegram', 'openAlerts', '"pain"']

describe('the data folder of a clinic with a key', () => {
  it('holds nothing that can be read of a whole played session, while the process runs and after it', async () => {
    const [sealed, open] = [await makeTemporaryFolder(), await makeTemporaryFolder()]
    const clinic = await playInto(sealed, key)
    const running = await findReadable(sealed, words)
    await clinic.close()
    const stopped = await findReadable(sealed, words)
    const names = (await readdir(sealed, { recursive: true })).filter((name) => !/^(documents|volumes)$/.test(name))
    await (await playInto(open, plain)).close()
    const unencrypted = await findReadable(open, words)

    expect([running, stopped]).toEqual([[], []])
    // Of the same session without a key, nearly every one of these words can be read.
    const readable = new Set(unencrypted.map((found) => found.split(' in ')[0]))
    expect(words.filter((word) => !readable.has(word))).toEqual([])
    // A chart's name is a digest; a desk's too.
    for (const name of names) expect(name).toMatch(/^(documents\/(clinic|chart-[0-9a-f]+|desk-[0-9a-f]+)\.json(\.previous)?|volumes\/chart-[0-9a-f]+(\/\d+\.json)?)$/)
    expect(names.some((name) => name.startsWith('volumes/'))).toBe(true)
  })

  it('goes on after a restart where it was, and opens with no other key', async () => {
    const folder = await makeTemporaryFolder()
    const clinic = await playInto(folder, key)
    const before = await clinic.store.heads()
    await clinic.restart()
    expect(await clinic.store.heads()).toEqual(before)
    await clinic.stop()
    for (const cipher of [makeCipher(2), plain]) {
      await expect(createLowdbStore({ folder, steps: documentMigrations, cipher }).open()).rejects.toMatchObject({ code: 'keyed' })
    }
    clinic.api.close()
  })
})

describe('the data folder of the demo clinic with a key', () => {
  const open = async (folder: string, key: string): Promise<{ stop(): Promise<void> }> =>
    startDemo(readConfig({ DATA_DIR: folder, PORT: '0', DATA_KEY: key }), new RecordingLog(), (error) => {
      throw error
    })

  it('holds no chat that can be read, which changes its key with everything else and is never written over under another', async () => {
    const folder = await makeTemporaryFolder()
    await (await open(folder, writeKey(1))).stop()
    const chat = await readSideFile(folder, 'demo-chat.json', key)
    const readable = await findReadable(folder, ['Orla', 'Tiernan', 'Maren', 'client-1'])
    await rotateKey({ folder, from: key, to: plain, steps: documentMigrations })
    const [afterwards, unencrypted] = [await findReadable(folder, ['client-1']), await readFile(join(folder, 'demo-chat.json'))]
    await rotateKey({ folder, from: plain, to: key, steps: documentMigrations })
    const again = await readSideFile(folder, 'demo-chat.json', key)
    await writeFile(join(folder, 'demo-chat.json'), unencrypted)
    const refused = await open(folder, writeKey(1)).then(() => null, (error: unknown) => error)

    expect(readable).toEqual([])
    expect(afterwards.join()).toContain('client-1 in demo-chat.json')
    expect(JSON.stringify(chat)).toContain('client-1')
    expect(again).toEqual(chat)
    expect(refused).toMatchObject({ code: 'keyed', message: expect.stringContaining('demo-chat.json is not encrypted') })
    expect(await readFile(join(folder, 'demo-chat.json'))).toEqual(unencrypted)
    // The refused start has given the folder back.
    const store = createLowdbStore({ folder, cipher: key, steps: documentMigrations })
    await store.open()
    await store.close()
  })
})
