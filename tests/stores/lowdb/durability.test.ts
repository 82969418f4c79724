import { readFile, readdir, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { nodeFileSystem } from '#src/stores/lowdb/file-system.ts'
import { residentDocuments } from '#src/stores/lowdb/folder-shelf.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { shareFolderSyncs } from '#src/stores/lowdb/share-folder-syncs.ts'
import { startScript } from '#tests/support/start-script.ts'
import { countUp, documentId, effectId, eventId, makeEntry, makeSend } from '#tests/support/store-samples.ts'
import type { Tally } from '#tests/support/store-samples.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { durableWriteOf, watchFiles } from '#tests/support/watched-files.ts'

const chart = documentId('chart-1')

async function openWatched() {
  const folder = await makeTemporaryFolder()
  const files = watchFiles(folder)
  const store = createLowdbStore({ folder, files })
  await store.open()
  return { folder, files, store }
}

// POSIX.1-2024 fsync() and the Linux manual fsync(2): syncing a file does not sync the name in its folder.
describe('one answer', () => {
  it('is one durable write: content synced before the rename, the name synced after it', async () => {
    const { files, store } = await openWatched()
    await store.apply(chart, eventId('1'), countUp(chart))
    files.calls.length = 0

    await store.apply(chart, eventId('2'), countUp(chart, { entries: [makeEntry('e')], effects: [makeSend('s')] }))
    await store.settle(chart, effectId('s'), { kind: 'delivered', ref: 'r' })

    expect(files.calls).toEqual(durableWriteOf('chart-1'))
    await store.close()
  })

  it('that closes a session writes the volume whole before the document', async () => {
    const { files, store } = await openWatched()
    files.calls.length = 0

    await store.apply(chart, eventId('1'), countUp(chart, { entries: [makeEntry('e')], closesVolume: true }))

    const steps = files.calls.filter((call) => /^(makeFolder|sync|rename)/.test(call))
    expect(steps).toEqual([
      'makeFolder volumes/chart-1',
      'syncFolder volumes',
      'sync volumes/chart-1/1.json.tmp',
      'rename volumes/chart-1/1.json.tmp volumes/chart-1/1.json',
      'syncFolder volumes/chart-1',
      'sync documents/chart-1.json.tmp',
      'rename documents/chart-1.json.tmp documents/chart-1.json',
      'syncFolder documents',
    ])
    await store.close()
  })

  it('costs nothing when it changes nothing', async () => {
    const { files, store } = await openWatched()
    await store.apply(chart, eventId('1'), countUp(chart))
    files.calls.length = 0

    await store.apply(chart, eventId('1'), countUp(chart))
    await store.apply(chart, eventId('2'), () => null)
    await store.read(chart)

    expect(files.calls).toEqual([])
    await store.close()
  })

  const failures = ['create', 'write', 'sync', 'close', 'remove', 'link', 'rename', 'syncFolder']
  it.each(failures)('that fails at %s rejects, and the next one is whole', async (call) => {
    const { folder, files, store } = await openWatched()
    await store.apply(chart, eventId('1'), countUp(chart, { entries: [makeEntry('a')] }))
    files.failNext(`${call} documents`, 'EIO')

    const failing = store.apply(chart, eventId('2'), countUp(chart, { entries: [makeEntry('b')] }))

    await expect(failing).rejects.toMatchObject({ name: 'StoreError', code: 'unavailable' })
    expect(await store.read(chart)).toMatchObject({ count: 1 })
    await store.apply(chart, eventId('3'), countUp(chart, { entries: [makeEntry('c')] }))
    await store.close()
    const next = createLowdbStore({ folder })
    await next.open()
    expect(await next.entries(chart)).toEqual([makeEntry('a'), makeEntry('c')])
    expect(await readdir(join(folder, 'documents'))).toEqual(['chart-1.json', 'chart-1.json.previous'])
    await next.close()
  })

  it('is taken where the disk has no hard links, only without a last good copy', async () => {
    const { folder, files, store } = await openWatched()
    await store.apply(chart, eventId('1'), countUp(chart))
    files.failNext('link documents', 'EPERM')

    await store.apply(chart, eventId('2'), countUp(chart))

    expect(await store.read(chart)).toMatchObject({ count: 2 })
    expect(await readdir(join(folder, 'documents'))).toEqual(['chart-1.json'])
    await store.close()
  })
})

describe('delivered marks', () => {
  it('are written once at close, and not when there are none', async () => {
    const { files, store } = await openWatched()
    await store.apply(chart, eventId('1'), countUp(chart, { effects: [makeSend('a'), makeSend('b')] }))
    await store.apply(documentId('quiet'), eventId('1'), countUp(documentId('quiet')))
    for (const name of ['a', 'b']) await store.settle(chart, effectId(name), { kind: 'delivered', ref: null })
    files.calls.length = 0

    await store.close()

    expect(files.calls.filter((call) => call.startsWith('write'))).toEqual(['write documents/chart-1.json.tmp'])
  })

  it('that cannot be written at close reject it, and the folder is free all the same', async () => {
    const { folder, files, store } = await openWatched()
    await store.apply(chart, eventId('1'), countUp(chart, { effects: [makeSend('a')] }))
    await store.settle(chart, effectId('a'), { kind: 'delivered', ref: null })
    files.failNext('write documents', 'ENOSPC')

    await expect(store.close()).rejects.toMatchObject({ code: 'full' })

    expect(await readdir(folder)).toEqual(['documents', 'volumes'])
  })
})

describe('volumes', () => {
  it('are never written again, save an orphan whose document was not written', async () => {
    const { folder, files, store } = await openWatched()
    const closing = (text: string) => countUp(chart, { entries: [makeEntry(text)], closesVolume: true })
    await store.apply(chart, eventId('1'), closing('a'))
    const first = await stat(join(folder, 'volumes/chart-1/1.json'))
    files.failNext('write documents', 'EIO')
    await expect(store.apply(chart, eventId('2'), closing('orphan'))).rejects.toMatchObject({ code: 'unavailable' })
    const atFirst = await store.entries(chart)

    await store.apply(chart, eventId('3'), closing('b'))

    expect(atFirst).toEqual([makeEntry('a')])
    expect(await store.entries(chart)).toEqual([makeEntry('a'), makeEntry('b')])
    expect((await readdir(join(folder, 'volumes/chart-1'))).sort()).toEqual(['1.json', '2.json'])
    expect((await stat(join(folder, 'volumes/chart-1/1.json'))).ino).toBe(first.ino)
    await store.close()
  })

  it('take the open entries once these pass 64 kB', async () => {
    const { folder, store } = await openWatched()
    const sizes: number[] = []
    for (let index = 0; index < 40; index += 1) {
      const entries = [makeEntry(`${index}`, { bulk: 'x'.repeat(4_000) })]
      await store.apply(chart, eventId(`${index}`), countUp(chart, { entries }))
      sizes.push((await stat(join(folder, 'documents/chart-1.json'))).size)
    }

    expect(Math.max(...sizes)).toBeLessThan(64 * 1024 + 8 * 1024)
    expect((await readdir(join(folder, 'volumes/chart-1'))).sort()).toEqual(['1.json', '2.json'])
    await store.close()
  })
})

describe('a document used long ago', () => {
  it('comes back from its file, its unwritten marks included', async () => {
    const { files, store } = await openWatched()
    await store.apply(chart, eventId('1'), countUp(chart, { effects: [makeSend('a'), makeSend('b')] }))
    await store.settle(chart, effectId('a'), { kind: 'delivered', ref: 'r' })
    for (let index = 0; index < residentDocuments; index += 1) await store.read(documentId(`other-${index}`))
    files.calls.length = 0

    const owed = await store.owed(chart)

    expect(files.calls).toEqual(['readText documents/chart-1.json'])
    expect(owed).toEqual([{ document: chart, effect: makeSend('b'), attempts: 0 }])
    expect(await store.refOf(chart, effectId('a'))).toBe('r')
    await store.close()
  })
})

// As many as are asked for; a few in the usual run.
const kills = Number(process.env['KILLS'] ?? 20)
const seed = Number(process.env['KILL_SEED'] ?? Date.now() % 100_000)

describe(`SIGKILL in a write loop, ${kills} times (KILL_SEED=${seed})`, () => {
  it('leaves a file that parses and holds the last acknowledged write', async () => {
    const folder = await makeTemporaryFolder()
    let state = seed
    for (let round = 0; round < kills; round += 1) {
      state = (state * 48_271 + 11) % 2_147_483_647
      const acknowledged = await killAfter(folder, 1 + (state % 60))
      JSON.parse(await readFile(join(folder, 'documents/chart-1.json'), 'utf8'))

      const store = createLowdbStore({ folder })
      await store.open()
      const count = (await store.read<Tally>(chart))?.count ?? 0
      expect([acknowledged, acknowledged + 1]).toContain(count)
      const ids = (await store.entries(chart)).map((entry) => Number(entry.id))
      expect(ids).toEqual(Array.from({ length: count }, (_, index) => index + 1))
      expect(await store.nextDueAt()).toBe(count)
      const owed = (await store.owed(chart)).map((one) => Number(one.effect.id))
      expect(owed).toEqual([count])
      await store.settle(chart, effectId(`${count}`), { kind: 'delivered', ref: null })
      await store.close()
    }
  }, 180_000 + kills * 10_000)
})

/** Lets the writer acknowledge some counts, kills it at once in the midst of the next, and gives the last it printed. */
async function killAfter(folder: string, acknowledgements: number): Promise<number> {
  const writer = startScript('write-store', [folder])
  let last: string | null = null
  for (let index = 0; index < acknowledgements; index += 1) last = (await writer.nextLine()) ?? last
  writer.kill('SIGKILL')
  return Number((await writer.ended).at(-1) ?? last)
}

describe('an erasure', () => {
  it('that stops anywhere is made good by asking again, and never leaves a damaged store', async () => {
    const calls = ['remove documents/chart-1.json.previous', 'remove documents/chart-1.json', 'removeFolder', 'syncFolder']
    for (const call of calls) {
      const { folder, files, store } = await openWatched()
      await store.apply(chart, eventId('1'), countUp(chart, { entries: [makeEntry('e')], closesVolume: true }))
      await store.apply(chart, eventId('2'), countUp(chart))
      files.failNext(call, 'EIO')
      await expect(store.erase(chart)).rejects.toMatchObject({ code: 'unavailable' })
      await store.close()
      const next = createLowdbStore({ folder })
      await next.open()

      await next.erase(chart)

      const left = await readdir(folder, { recursive: true })
      expect(left.sort()).toEqual(['documents', 'lock.json', 'volumes'])
      await next.close()
    }
  })
})

describe('the sync of a folder', () => {
  it('serves all that asked before it began, and those that ask while it runs get the next', async () => {
    const begun: PromiseWithResolver[] = []
    const slow = { ...nodeFileSystem, syncFolder: () => new Promise<void>((resolve, reject) => begun.push({ resolve, reject })) }
    const { syncFolder } = shareFolderSyncs(slow)
    const done: string[] = []
    const note = (name: string) => syncFolder('documents').then(() => done.push(name), () => done.push(`${name} failed`))

    const first = note('first')
    const later = [note('second'), note('third')]
    const begunAtOnce = begun.length
    begun[0]!.reject(new Error('the disk failed'))
    await first
    await Promise.resolve()
    const afterFirst = [...done]
    begun[1]!.resolve()
    await Promise.all(later)

    expect(begunAtOnce).toBe(1)
    expect(afterFirst).toEqual(['first failed'])
    expect(done).toEqual(['first failed', 'second', 'third'])
    expect(begun.length).toBe(2)
  })
})

interface PromiseWithResolver {
  readonly resolve: () => void
  readonly reject: (error: Error) => void
}
