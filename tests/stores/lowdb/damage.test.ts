import { chmod, mkdir, readFile, readdir, rm, stat, truncate, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { StoreError } from '#src/ports/store.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { countUp, documentId, eventId, makeEntry } from '#tests/support/store-samples.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'

const chart = documentId('chart-1')
const secret = 'my arm feels numb'

/** A closed store with one chart of two commits and one volume. */
async function makeFolder(): Promise<{ folder: string; file: string; volume: string }> {
  const folder = await makeTemporaryFolder()
  const store = createLowdbStore({ folder })
  await store.open()
  const entries = [makeEntry('e', { secret })]
  await store.apply(chart, eventId('1'), countUp(chart, { entries, closesVolume: true }))
  await store.apply(chart, eventId('2'), countUp(chart, { entries }))
  await store.close()
  return { folder, file: join(folder, 'documents/chart-1.json'), volume: join(folder, 'volumes/chart-1/1.json') }
}

async function failToOpen(folder: string): Promise<StoreError> {
  const error: unknown = await createLowdbStore({ folder }).open().catch((thrown: unknown) => thrown)
  if (!(error instanceof StoreError)) throw new Error('the store opened', { cause: error })
  return error
}

const damages: readonly (readonly [string, string, (text: string) => string])[] = [
  ['empty', 'it is empty', () => ''],
  ['cut in the middle', 'it is cut or no record', (text) => text.slice(0, text.length / 2)],
  ['cut by its last byte', 'it has no fingerprint', (text) => text.slice(0, -1)],
  ['filled with zeros', 'it is filled with zeros', (text) => '\0'.repeat(text.length)],
  ['zeros at its end', 'it is cut or no record', (text) => text.slice(0, -100) + '\0'.repeat(100)],
  ['null', 'it is cut or no record', () => 'null'],
  ['an empty record', 'it has no fingerprint', () => '{}'],
  ['changed in one byte', 'its fingerprint does not match', (text) => text.replace('"count":2', '"count":3')],
  ['written twice over', 'its fingerprint does not match', (text) => text + text],
]

describe('a damaged document', () => {
  it.each(damages)('that is %s stops the start, is named and kept, and so is its last good copy', async (_, what, damage) => {
    const { folder, file } = await makeFolder()
    const damaged = damage(await readFile(file, 'utf8'))
    await writeFile(file, damaged)

    const error = await failToOpen(folder)

    expect(error.code).toBe('damaged')
    expect(error.message).toContain(`${file} is damaged: ${what}.`)
    expect(error.message).toContain(`The last good copy is ${file}.previous`)
    expect(error.message).not.toContain(secret)
    expect(error.cause).toBeUndefined()
    expect(await readFile(file, 'utf8')).toBe(damaged)
    expect(await readdir(folder)).toEqual(['documents', 'volumes'])
  })

  it('is replaced by its last good copy as the message says', async () => {
    const { folder, file } = await makeFolder()
    await truncate(file, 0)
    await writeFile(file, await readFile(`${file}.previous`))
    const store = createLowdbStore({ folder })

    await store.open()

    expect(await store.read(chart)).toMatchObject({ count: 1 })
    await store.close()
  })

  it('without a good copy beside it asks for a backup', async () => {
    const { folder, file } = await makeFolder()
    for (const path of [file, `${file}.previous`]) await truncate(path, 10)

    const error = await failToOpen(folder)

    expect(error.code).toBe('damaged')
    expect(error.message).toContain('There is no good copy beside it: restore a backup.')
  })

  it('that is gone while its last generation stands stops the start too', async () => {
    const { folder, file } = await makeFolder()
    await rm(file)

    const error = await failToOpen(folder)

    expect(error.message).toContain(`${file} is damaged: it is missing.`)
    expect(error.message).toContain(`The last good copy is ${file}.previous`)
  })

  it('under the name of another document is refused', async () => {
    const { folder, file } = await makeFolder()
    await writeFile(join(folder, 'documents/chart-2.json'), await readFile(file))

    const error = await failToOpen(folder)

    expect(error.message).toContain('chart-2.json is damaged: it holds a document of another name.')
  })

  it('is told together with all the others', async () => {
    const { folder, file, volume } = await makeFolder()
    await writeFile(join(folder, 'documents/other.json'), '')
    await rm(volume)

    const error = await failToOpen(folder)

    expect(error.code).toBe('damaged')
    expect(error.message.split('\n').map((line) => line.split(' ')[0])).toEqual([volume, join(folder, 'documents/other.json')])
    expect(await readFile(file, 'utf8')).toContain('"count":2')
  })
})

describe('a damaged volume', () => {
  it.each(damages)('that is %s is named when the record is read, and kept', async (_, __, damage) => {
    const { folder, volume } = await makeFolder()
    const before = await readFile(volume, 'utf8')
    const damaged = damage(before.replace(secret, '"count":2'))
    await writeFile(volume, damaged)
    const store = createLowdbStore({ folder })
    await store.open()

    const error: unknown = await store.entries(chart).catch((thrown: unknown) => thrown)

    expect(error).toMatchObject({ name: 'StoreError', code: 'damaged' })
    expect(String(error)).toContain(volume)
    expect(await readFile(volume, 'utf8')).toBe(damaged)
    await store.close()
  })

  it('that stands in the place of another is refused', async () => {
    const { folder, volume } = await makeFolder()
    const store = createLowdbStore({ folder })
    await store.open()
    await store.apply(chart, eventId('3'), countUp(chart, { closesVolume: true }))
    await writeFile(volume, await readFile(volume.replace('1.json', '2.json')))

    await expect(store.entries(chart)).rejects.toMatchObject({ code: 'damaged' })
    await store.close()
  })
})

describe('a newer format', () => {
  const newer: readonly (readonly [string, (text: string) => string])[] = [
    ['of the file, sealed in a way not known yet', (text) => JSON.stringify({ ...JSON.parse(text), format: 2, seal: 'new' })],
    ['of the file', (text) => text.replace('{"format":1', '{"format":2')],
  ]
  it.each(newer)('%s is refused as such, not as damage', async (_, change) => {
    const { folder, file } = await makeFolder()
    const changed = change(await readFile(file, 'utf8'))
    await writeFile(file, changed)

    const error = await failToOpen(folder)

    expect(error.code).toBe('newer')
    expect(error.message).toContain(`${file} was written by a newer version of this program (format 2).`)
    expect(await readFile(file, 'utf8')).toBe(changed)
  })
})

describe('the folder', () => {
  it('is made with all above it, for its owner alone, and so is every file', async () => {
    const folder = join(await makeTemporaryFolder(), 'above', 'data')
    const store = createLowdbStore({ folder })
    await store.open()
    await store.apply(chart, eventId('1'), countUp(chart, { entries: [makeEntry('e')], closesVolume: true }))
    await store.apply(chart, eventId('2'), countUp(chart))

    const paths = await readdir(folder, { recursive: true })
    const modes = await Promise.all(
      ['.', ...paths].map(async (path) => {
        const found = await stat(join(folder, path))
        return `${path} ${found.isDirectory() ? 'folder' : 'file'} ${(found.mode & 0o777).toString(8)}`
      }),
    )

    expect(modes.sort()).toEqual([
      '. folder 700',
      'documents folder 700',
      'documents/chart-1.json file 600',
      'documents/chart-1.json.previous file 600',
      'lock.json file 600',
      'volumes folder 700',
      'volumes/chart-1 folder 700',
      'volumes/chart-1/1.json file 600',
    ])
    await store.close()
  })

  it('keeps what is not ours as it is', async () => {
    const { folder } = await makeFolder()
    const foreign = {
      'package.json': 'not ours',
      'chart-9.json': '',
      'documents/.DS_Store': 'not ours',
      'documents/._chart-1.json': 'not ours',
      'documents/Read Me.json': 'null',
      'documents/chart-1.json.bak': 'null',
      'documents/chart-1.json.tmp.old': '',
      'volumes/notes.txt': 'not ours',
      'volumes/chart-1/notes.json': 'not ours',
      'more/chart-1.json': '{}',
    }
    await mkdir(join(folder, 'more'))
    for (const [path, text] of Object.entries(foreign)) await writeFile(join(folder, path), text)
    const store = createLowdbStore({ folder })

    await store.open()
    const heads = await store.heads()
    await store.apply(chart, eventId('3'), countUp(chart, { closesVolume: true }))
    await store.close()

    expect(heads.map((head) => head.id)).toEqual([chart])
    const texts = await Promise.all(Object.keys(foreign).map((path) => readFile(join(folder, path), 'utf8')))
    expect(texts).toEqual(Object.values(foreign))
  })

  it('that is a file is refused with its name', async () => {
    const path = join(await makeTemporaryFolder(), 'data')
    await writeFile(path, '')

    const error = await failToOpen(path)

    expect(error.code).toBe('unavailable')
    expect(error.message).toContain(path)
  })

  it('keeps the mode that its owner gave it', async () => {
    const folder = await makeTemporaryFolder()
    await chmod(folder, 0o750)
    const store = createLowdbStore({ folder })

    await store.open()

    expect((await stat(folder)).mode & 0o777).toBe(0o750)
    await store.close()
  })
})
