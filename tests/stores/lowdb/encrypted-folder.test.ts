import { copyFile, readFile, readdir, rename, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { StoreError } from '#src/ports/store.ts'
import { plain, type Cipher } from '#src/stores/cipher.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { readEnvelopes } from '#src/stores/lowdb/read-envelopes.ts'
import { makeCipher } from '#tests/support/data-keys.ts'
import { findReadable, readFolder } from '#tests/support/folder-bytes.ts'
import { countUp, documentId, effectId, eventId, makeEntry, makeSend } from '#tests/support/store-samples.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { durableWriteOf, watchFiles } from '#tests/support/watched-files.ts'

const chart = documentId('chart-1')
const secret = 'my arm feels numb'
const key = makeCipher(1)
const otherKey = makeCipher(2)

/** A closed store with one chart of two commits and one volume. */
async function makeFolder(cipher: Cipher = key): Promise<{ folder: string; file: string; volume: string }> {
  const folder = await makeTemporaryFolder()
  const store = createLowdbStore({ folder, cipher })
  await store.open()
  const entries = [makeEntry('e', { secret })]
  await store.apply(chart, eventId('1'), countUp(chart, { entries, closesVolume: true }))
  await store.apply(chart, eventId('2'), countUp(chart, { entries }))
  await store.close()
  return { folder, file: join(folder, 'documents/chart-1.json'), volume: join(folder, 'volumes/chart-1/1.json') }
}

async function refusalOf(work: Promise<unknown>): Promise<StoreError> {
  const error: unknown = await work.then(() => null, (thrown: unknown) => thrown)
  if (error instanceof StoreError) return error
  throw new Error('it was not refused', { cause: error })
}

const open = (folder: string, cipher: Cipher): Promise<StoreError> => refusalOf(createLowdbStore({ folder, cipher }).open())

describe('an encrypted folder', () => {
  it('holds documents, last generations and volumes, none of which can be read', async () => {
    const [{ folder }, unencrypted] = [await makeFolder(), await makeFolder(plain)]
    const words = [secret, '"count"', 'answer', 'entries']
    expect(await findReadable(folder, words)).toEqual([])
    // The same words do stand in a folder without a key.
    expect((await findReadable(unencrypted.folder, words)).length).toBeGreaterThanOrEqual(7)
    expect([...(await readFolder(folder)).keys()]).toEqual(['documents/chart-1.json', 'documents/chart-1.json.previous', 'volumes/chart-1/1.json'])
  })

  it('takes an answer as one durable write, like any other', async () => {
    const folder = await makeTemporaryFolder()
    const files = watchFiles(folder)
    const store = createLowdbStore({ folder, files, cipher: key })
    await store.open()
    await store.apply(chart, eventId('1'), countUp(chart))
    files.calls.length = 0

    await store.apply(chart, eventId('2'), countUp(chart, { entries: [makeEntry('e')], effects: [makeSend('s')] }))
    await store.settle(chart, effectId('s'), { kind: 'delivered', ref: 'r' })

    expect(files.calls).toEqual(durableWriteOf('chart-1'))
    await store.close()
  })

  it('is read beside the process that has it', async () => {
    const { folder } = await makeFolder()
    expect((await readEnvelopes(folder, [], key))?.map(({ document }) => document)).toEqual([expect.objectContaining({ count: 2 })])
  })
})

describe('a folder under the wrong key', () => {
  const another = `is encrypted with another key (${key.keyId}) than the one in DATA_KEY (${otherKey.keyId}). Set DATA_KEY to that key. Nothing was changed.`
  const none = `is encrypted (key ${key.keyId}), and DATA_KEY is empty. Set DATA_KEY to that key. Nothing was changed.`
  const needless = 'is not encrypted, but DATA_KEY is set. Leave DATA_KEY empty, or have everything encrypted with "migrate --rekey". Nothing was changed.'

  it.each<readonly [string, Cipher, Cipher, string]>([
    ['another key', key, otherKey, another],
    ['no key on an encrypted folder', key, plain, none],
    ['a key on a folder that is not encrypted', plain, key, needless],
  ])('(%s) is refused in one line that names a file, the keys and the mend; not a byte is changed', async (_, kept, given, sentence) => {
    const { folder, file } = await makeFolder(kept)
    await copyFile(join(folder, 'documents/chart-1.json'), join(folder, 'documents/chart-9.json'))
    const before = await readFolder(folder)

    const refusals = [await open(folder, given), await refusalOf(readEnvelopes(folder, [], given))]

    expect(refusals.map(({ code, message }) => [code, message])).toEqual([['keyed', `${file} ${sentence}`], ['keyed', expect.stringContaining(sentence)]])
    expect(await readFolder(folder)).toEqual(before)
  })

  it('is refused too where a single file is kept under another', async () => {
    const [{ folder }, other] = [await makeFolder(), await makeFolder(otherKey)]
    const stray = join(folder, 'documents/chart-1.json.previous')
    await rename(other.file, join(folder, 'documents/chart-1.json'))
    expect((await open(folder, key)).message).toContain(`${join(folder, 'documents/chart-1.json')} ${another.replace(`${key.keyId}`, `${otherKey.keyId}`).replace(`DATA_KEY (${otherKey.keyId})`, `DATA_KEY (${key.keyId})`)}`)
    // Its last generation is still good, and is what the folder can be mended with.
    await copyFile(stray, join(folder, 'documents/chart-1.json'))
    const store = createLowdbStore({ folder, cipher: key })
    await store.open()
    expect(await store.read(chart)).toMatchObject({ count: 1 })
    await store.close()
  })

  it('tells a volume’s wrong key when it is read', async () => {
    const [{ folder, volume }, unencrypted] = [await makeFolder(), await makeFolder(plain)]
    await copyFile(unencrypted.volume, volume)
    const store = createLowdbStore({ folder, cipher: key })
    await store.open()
    expect(await refusalOf(store.entries(chart))).toMatchObject({ code: 'keyed', message: `${volume} ${needless}` })
    await store.close()
  })
})

const damages: readonly (readonly [string, string, (text: string) => string])[] = [
  ['empty', 'it is empty', () => ''],
  ['cut in the middle', 'it is cut or no record', (text) => text.slice(0, text.length / 2)],
  ['cut by its last byte', 'it has no fingerprint', (text) => text.slice(0, -1)],
  ['filled with zeros', 'it is filled with zeros', (text) => '\0'.repeat(text.length)],
  ['changed in its key’s id', 'its fingerprint does not match', (text) => text.replace(`${key.keyId}`, `${otherKey.keyId}`)],
  ['changed in what is encrypted', 'its fingerprint does not match', (text) => text.replace(new RegExp(`(?<=${key.keyId}:).`), (letter) => (letter === 'A' ? 'B' : 'A'))],
]

describe('a damaged file of an encrypted folder', () => {
  it.each(damages)('that is %s is told from a wrong key, with and without the right one, and kept', async (_, what, damage) => {
    const { folder, file } = await makeFolder()
    const damaged = damage(await readFile(file, 'utf8'))
    await writeFile(file, damaged)

    const [right, wrong, none] = [await open(folder, key), await open(folder, otherKey), await open(folder, plain)]

    expect([right.code, wrong.code, none.code]).toEqual(['damaged', 'damaged', 'damaged'])
    expect(right.message).toContain(`${file} is damaged: ${what}.`)
    expect(right.message).toContain(`The last good copy is ${file}.previous`)
    expect(right.message).not.toContain(secret)
    expect(await readFile(file, 'utf8')).toBe(damaged)
  })

  it('is told where it was moved from another place, even under the same key', async () => {
    const { folder, file, volume } = await makeFolder()
    const store = createLowdbStore({ folder, cipher: key })
    await store.open()
    await store.apply(chart, eventId('3'), countUp(chart, { closesVolume: true }))
    await store.close()
    await copyFile(volume.replace('1.json', '2.json'), volume)
    await copyFile(file, join(folder, 'documents/chart-2.json'))

    expect((await open(folder, key)).message).toContain('chart-2.json is damaged: it was changed, or sealed for another place.')
    const again = createLowdbStore({ folder, cipher: key })
    await rename(join(folder, 'documents/chart-2.json'), join(folder, 'chart-2.json'))
    await again.open()
    expect(await refusalOf(again.entries(chart))).toMatchObject({ code: 'damaged', message: expect.stringContaining(volume) })
    await again.close()
  })

  it('of a newer format is refused as such, under any key', async () => {
    const { folder, file } = await makeFolder()
    const changed = (await readFile(file, 'utf8')).replace('{"format":2', '{"format":3')
    await writeFile(file, changed)
    const refusals = [await open(folder, key), await open(folder, otherKey)]
    expect(refusals.map(({ code }) => code)).toEqual(['newer', 'newer'])
    expect(refusals[0]?.message).toContain('written by a newer version of this program (format 3).')
    expect(await readdir(folder)).toEqual(['documents', 'volumes'])
  })
})
