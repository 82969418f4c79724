import { cp, mkdtemp, readFile, readdir, rm, truncate, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { Entry } from '#src/domain/entry.ts'
import { StoreError, type StoredDocument } from '#src/ports/store.ts'
import { plain, type Cipher } from '#src/stores/cipher.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { nodeFileSystem } from '#src/stores/lowdb/file-system.ts'
import { readEnvelopes } from '#src/stores/lowdb/read-envelopes.ts'
import { rotateKey, type KeyRotation } from '#src/stores/lowdb/rotate-key.ts'
import { keepSideFile, readSideFile } from '#src/stores/lowdb/side-file.ts'
import { makeCipher } from '#tests/support/data-keys.ts'
import { findReadable, readFolder } from '#tests/support/folder-bytes.ts'
import { makeMortalFiles } from '#tests/support/mortal-files.ts'
import { countUp, documentId, eventId, makeEntry } from '#tests/support/store-samples.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { watchFiles } from '#tests/support/watched-files.ts'

const [key, nextKey, thirdKey] = [makeCipher(1), makeCipher(2), makeCipher(3)]
const charts = [documentId('chart-1'), documentId('Desk of Idris')]
const secret = 'my arm feels numb'
const chat = { said: secret }
const copiesAtOnce = 12
const isAlive = (): boolean => false

/** Two documents with last generations, volumes, one of them an orphan, a side file and what a crash left half written. */
async function makeFolder(cipher: Cipher): Promise<string> {
  const folder = await makeTemporaryFolder()
  const store = createLowdbStore({ folder, cipher })
  await store.open()
  for (const id of charts) {
    const entries = [makeEntry('e', { secret })]
    await store.apply(id, eventId('1'), countUp(id, { entries, closesVolume: true }))
    await store.apply(id, eventId('2'), countUp(id, { entries }))
  }
  await store.apply(documentId('chart-3'), eventId('1'), countUp(documentId('chart-3')))
  await store.close()
  await keepSideFile(folder, 'demo-chat.json', chat, cipher)
  const draft = (await readFile(join(folder, 'documents/chart-1.json'), 'utf8')).slice(0, 200) + secret
  for (const path of ['documents/chart-1.json.tmp', 'volumes/chart-1/2.json.tmp']) await writeFile(join(folder, path), draft)
  return folder
}

interface Kept {
  readonly documents: readonly (StoredDocument | null)[]
  readonly entries: readonly (readonly Entry[])[]
  readonly chat: unknown
}

async function readAll(folder: string, cipher: Cipher): Promise<Kept> {
  const store = createLowdbStore({ folder, cipher, isAlive })
  await store.open()
  try {
    const documents = await Promise.all(charts.map((id) => store.read(id)))
    const entries = await Promise.all(charts.map((id) => store.entries(id)))
    return { documents, entries, chat: await readSideFile(folder, 'demo-chat.json', cipher) }
  } finally {
    await store.close()
  }
}

const rotate = (folder: string, from: Cipher, to: Cipher, more: Partial<KeyRotation> = {}) => rotateKey({ folder, from, to, steps: [], isAlive, ...more })

async function refusalOf(work: Promise<unknown>): Promise<StoreError> {
  const error: unknown = await work.then(() => null, (thrown: unknown) => thrown)
  if (error instanceof StoreError) return error
  throw new Error('it was not refused', { cause: error })
}

/** The number: one in how many file operations is tried as the last one. */
const ways: readonly (readonly [string, Cipher, Cipher, number])[] = [
  ['from one key to another', key, nextKey, 1],
  ['from no key to one', plain, key, 4],
  ['from a key to none', key, plain, 4],
]

describe.each(ways)('a change %s', (_, from, to, every) => {
  it('re-seals every file, loses nothing, and leaves nothing that the old key could open or that was half written', async () => {
    const folder = await makeFolder(from)
    const before = await readAll(folder, from)
    const names = [...(await readFolder(folder)).keys()].filter((name) => !name.endsWith('.tmp'))
    const progress: number[][] = []

    const rotated = await rotate(folder, from, to, { onProgress: (done, of) => progress.push([done, of]) })

    expect(rotated).toEqual({ files: 8, resealed: 8 })
    expect(progress).toEqual(Array.from({ length: 8 }, (_, at) => [at + 1, 8]))
    expect(await readAll(folder, to)).toEqual(before)
    expect((await refusalOf(readAll(folder, from))).code).toBe('keyed')
    const files = await readFolder(folder)
    expect([...files.keys()]).toEqual(names)
    const text = [...files.values()].join('\n')
    expect(from.keyId !== null && text.includes(from.keyId)).toBe(false)
    if (to.keyId !== null) expect(await findReadable(folder, [secret, '"count"'])).toEqual([])
  })

  it('killed at any of its file operations loses nothing, is opened by nobody half way, and goes on when called again', async () => {
    const folder = await makeFolder(from)
    const before = await readAll(folder, from)
    const counting = makeMortalFiles(Infinity)
    const whole = join(await makeTemporaryFolder(), 'data')
    await cp(folder, whole, { recursive: true })
    await rotate(whole, from, to, { files: counting })
    const outcomes = { before: 0, between: 0, after: 0 }

    // Side by side, each on a copy of its own: most of the time goes by in waiting for the disk.
    for (let start = 0; start < counting.calls(); start += copiesAtOnce * every) {
      const lives = Array.from({ length: copiesAtOnce }, (_, at) => start + at * every).filter((one) => one < counting.calls())
      for (const state of await Promise.all(lives.map(dieAfter))) outcomes[state] += 1
    }

    expect(outcomes.before).toBeGreaterThan(20 / every)
    expect(outcomes.between).toBeGreaterThan(50 / every)
    if (every === 1) expect(outcomes.after).toBeGreaterThan(0)

    async function dieAfter(lives: number): Promise<'before' | 'between' | 'after'> {
      const torn = join(await mkdtemp(join(tmpdir(), 'nuchal-')), 'data')
      await cp(folder, torn, { recursive: true })
      // Syncs are shared, so that a run may need some calls fewer than the one that was counted, and come to its end.
      const isOver = await rotate(torn, from, to, { files: makeMortalFiles(lives) }).then(() => true, () => false)
      const opened = await Promise.all([from, to].map((cipher) => readEnvelopes(torn, [], cipher).then(() => 'opened', (error: StoreError) => error.code)))
      const { files } = await rotate(torn, from, to)
      expect(files).toBe(8)
      expect(await readAll(torn, to)).toEqual(before)
      expect((await readdir(torn, { recursive: true })).filter((name) => /json\S*\.tmp$|key-change/.test(name))).toEqual([])
      await rm(dirname(torn), { recursive: true })
      const state = stateOf(opened)
      if (isOver) expect(state).toBe('after')
      return state
    }
  }, 120_000)
})

/** Never is there one in which both keys open the folder, or the wrong one, or in which something seems damaged. */
function stateOf([old, next]: readonly string[]): 'before' | 'between' | 'after' {
  if (old === 'opened' && next === 'keyed') return 'before'
  if (old === 'keyed' && next === 'opened') return 'after'
  if (old === 'keyed' && next === 'keyed') return 'between'
  throw new Error(`the old key: ${old}; the new one: ${next}`)
}

/** Killed when about half of the files are in the new key. */
async function makeHalfRotated(from: Cipher = key, to: Cipher = nextKey): Promise<string> {
  const folder = await makeFolder(from)
  let renames = 0
  const files = {
    ...nodeFileSystem,
    async rename(source: string, target: string) {
      renames += 1
      // The lock is linked; the first rename is that of the mark.
      if (renames > 5) throw new Error('the process was killed')
      await nodeFileSystem.rename(source, target)
    },
  }
  await rotate(folder, from, to, { files }).catch(() => {})
  return folder
}

describe('a change of the key that has stopped half way', () => {
  it('refuses whoever opens or reads the folder, in one line with the way on, and changes nothing', async () => {
    const folder = await makeHalfRotated()
    const before = await readFolder(folder)
    const refusals = await Promise.all([key, nextKey, plain].map((cipher) => refusalOf(readEnvelopes(folder, [], cipher))))
    for (const cipher of [key, nextKey, plain]) refusals.push(await refusalOf(createLowdbStore({ folder, cipher, isAlive }).open()))

    const sentence = `The change of the key of ${folder} (from key ${key.keyId} to key ${nextKey.keyId}) has not come to its end. Run "migrate --rekey" again with the same DATA_KEY and DATA_KEY_NEXT; it goes on where it stopped. Nothing was changed.`
    expect(refusals.map(({ code, message }) => [code, message])).toEqual(Array(6).fill(['keyed', sentence]))
    expect(await readFolder(folder)).toEqual(before)
    const text = [...before.values()].join('\n')
    expect([text.includes(`sealed:1:${key.keyId}`), text.includes(`sealed:1:${nextKey.keyId}`)]).toEqual([true, true])
  })

  it('goes on with the same two keys and does again only what was not done', async () => {
    const folder = await makeHalfRotated()
    const { files, resealed } = await rotate(folder, key, nextKey)
    expect([files, resealed]).toEqual([8, 4])
  })

  it('turns back with the two exchanged', async () => {
    const folder = await makeHalfRotated()
    await rotate(folder, nextKey, key)
    expect((await readAll(folder, key)).chat).toEqual(chat)
  })

  it('is not taken on with a third key, nor with one of the two alone', async () => {
    const folder = await makeHalfRotated()
    const before = await readFolder(folder)
    const refusals = [await refusalOf(rotate(folder, key, thirdKey)), await refusalOf(rotate(folder, nextKey, thirdKey)), await refusalOf(rotate(folder, key, plain))]
    expect(refusals.map(({ code }) => code)).toEqual(['keyed', 'keyed', 'keyed'])
    expect(await readFolder(folder)).toEqual(before)
  })

  it('whose mark cannot be read is still known as such, and goes on', async () => {
    const folder = await makeHalfRotated()
    await truncate(join(folder, 'key-change.json'), 10)
    expect((await refusalOf(readEnvelopes(folder, [], key))).message).toMatch(new RegExp(`^The change of the key of ${folder} has not come to its end`))
    await rotate(folder, key, nextKey)
    expect((await readAll(folder, nextKey)).chat).toEqual(chat)
  })
})

describe('a change of the key', () => {
  it('that is over can be asked for again', async () => {
    const folder = await makeFolder(key)
    await rotate(folder, key, nextKey)
    expect(await rotate(folder, key, nextKey)).toEqual({ files: 8, resealed: 0 })
  })

  it('leaves what is not ours as it is', async () => {
    const folder = await makeFolder(plain)
    const foreign = ['package.json', 'documents/.DS_Store', 'documents/Read Me.json', 'documents/chart-1.json.bak', 'volumes/notes.txt', 'volumes/chart-1/notes.json', 'running.json']
    for (const path of foreign) await writeFile(join(folder, path), 'not ours')
    await rotate(folder, plain, key)
    expect(await Promise.all(foreign.map((path) => readFile(join(folder, path), 'utf8')))).toEqual(foreign.map(() => 'not ours'))
  })

  it.each<readonly [string, string, string]>([
    ['a damaged document', 'documents/chart-1.json', 'damaged'],
    ['a damaged last generation', 'documents/chart-1.json.previous', 'damaged'],
    ['a damaged volume, which no start would have noticed', 'volumes/chart-1/1.json', 'damaged'],
  ])('refuses %s by its name before anything is changed', async (_, path, code) => {
    const folder = await makeFolder(key)
    await truncate(join(folder, path), 40)
    const before = await readFolder(folder)
    const error = await refusalOf(rotate(folder, key, nextKey))
    expect([error.code, error.message]).toEqual([code, expect.stringContaining(join(folder, path))])
    expect(await readFolder(folder)).toEqual(before)
  })

  it('refuses a present key that is not the folder’s, before anything is changed', async () => {
    const folder = await makeFolder(key)
    const before = await readFolder(folder)
    const refusals = [await refusalOf(rotate(folder, thirdKey, nextKey)), await refusalOf(rotate(folder, plain, nextKey))]
    expect(refusals.map(({ code, message }) => [code, message])).toEqual([
      ['keyed', expect.stringContaining(`is encrypted with another key (${key.keyId}) than the one in DATA_KEY (${thirdKey.keyId}).`)],
      ['keyed', expect.stringContaining(`is encrypted (key ${key.keyId}), and DATA_KEY is empty.`)],
    ])
    expect(await readFolder(folder)).toEqual(before)
  })

  it('refuses the same key twice, a folder in use, and one in which nothing is stored, which it does not make', async () => {
    const folder = await makeFolder(key)
    const store = createLowdbStore({ folder, cipher: key })
    await store.open()
    const inUse = await refusalOf(rotateKey({ folder, from: key, to: nextKey, steps: [] }))
    await store.close()
    const empty = await makeTemporaryFolder()
    const nothing = await Promise.all([empty, join(empty, 'data')].map((one) => refusalOf(rotate(one, key, nextKey))))
    expect([(await refusalOf(rotate(folder, key, makeCipher(1)))).code, inUse.code, ...nothing.map(({ code }) => code)]).toEqual(['keyed', 'locked', 'unavailable', 'unavailable'])
    expect(await readdir(empty)).toEqual([])
  })

  it('for which no space is left says so, and goes on once there is some', async () => {
    const folder = await makeFolder(key)
    const files = watchFiles(folder)
    files.failNext('write volumes', 'ENOSPC')
    expect((await refusalOf(rotate(folder, key, nextKey, { files }))).code).toBe('full')
    await rotate(folder, key, nextKey)
    expect((await readAll(folder, nextKey)).chat).toEqual(chat)
  })

  it('has its mark on the disk before the first file is re-sealed, and until the last one is', async () => {
    const folder = await makeFolder(key)
    const files = watchFiles(folder)
    await rotate(folder, key, nextKey, { files })
    const marked = files.calls.indexOf('rename key-change.json.tmp key-change.json')
    const unmarked = files.calls.indexOf('remove key-change.json')
    const reseals = files.calls.flatMap((call, at) => (/^rename (documents|volumes|demo-chat)/.test(call) ? [at] : []))
    const syncs = files.calls.flatMap((call, at) => (/^syncFolder (documents|volumes|\.$)/.test(call) ? [at] : []))
    expect(reseals.length).toBe(8)
    expect(files.calls[marked + 1]).toBe('syncFolder .')
    expect([marked + 1 < Math.min(...reseals), Math.max(...reseals) < unmarked]).toEqual([true, true])
    expect(syncs.some((at) => at > Math.max(...reseals) && at < unmarked)).toBe(true)
  })
})
