import { readFile, readdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it, onTestFinished, vi } from 'vitest'
import { plain } from '#src/stores/cipher.ts'
import { nodeFileSystem } from '#src/stores/lowdb/file-system.ts'
import { lockFolder } from '#src/stores/lowdb/folder-lock.ts'
import { FolderShelf } from '#src/stores/lowdb/folder-shelf.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { describeOwnProcess, isHolderAlive, isSameBoot } from '#src/stores/lowdb/process-identity.ts'
import type { LockHolder } from '#src/stores/lowdb/process-identity.ts'
import { ShelvedStore } from '#src/stores/shelved-store.ts'
import { startScript } from '#tests/support/start-script.ts'
import { countUp, documentId, eventId } from '#tests/support/store-samples.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { watchFiles } from '#tests/support/watched-files.ts'

const self: LockHolder = { pid: 10, startedAt: '5', boot: 'b1', namespace: 'n1', host: 'h1', token: 'mine' }
const holder: LockHolder = { ...self, pid: 20, token: 'theirs' }

async function lockOver(found: LockHolder | string, options: { isAlive?: boolean; silentMs?: number } = {}) {
  const folder = await makeTemporaryFolder()
  const path = join(folder, 'lock.json')
  await writeFile(path, typeof found === 'string' ? found : JSON.stringify(found))
  await nodeFileSystem.touch(path, 1_000_000)
  const now = () => 1_000_000 + (options.silentMs ?? 0)
  const locking = lockFolder({ files: nodeFileSystem, folder, self, isAlive: () => options.isAlive ?? true, now })
  const outcome = await locking.then(
    () => 'taken' as const,
    (error: unknown) => error,
  )
  return { folder, path, outcome, lock: locking, held: JSON.parse(await readFile(path, 'utf8').catch(() => 'null')) as unknown }
}

describe('the lock of a folder', () => {
  const stale: readonly (readonly [string, Partial<LockHolder>, { isAlive?: boolean; silentMs?: number }])[] = [
    ['a process that has ended', {}, { isAlive: false }],
    ['another boot of this machine', { boot: 'b2' }, {}],
    ['a silent container', { namespace: 'n2', host: 'h2' }, { silentMs: 30_000 }],
    ['a silent machine', { boot: 'b2', host: 'h2' }, { silentMs: 30_000 }],
  ]
  it.each(stale)('is taken over from %s', async (_, changes, options) => {
    const { folder, outcome, held } = await lockOver({ ...holder, ...changes }, options)

    expect(outcome).toBe('taken')
    expect(held).toEqual(self)
    expect(await readdir(folder)).toEqual(['lock.json'])
  })

  const live: readonly (readonly [string, Partial<LockHolder>, { isAlive?: boolean; silentMs?: number }])[] = [
    ['a living process, however silent', {}, { silentMs: 3_600_000 }],
    ['this very process', { pid: self.pid }, {}],
    ['a container that was heard of', { namespace: 'n2' }, { isAlive: false, silentMs: 29_999 }],
    ['a machine that was heard of', { boot: 'b2', host: 'h2' }, { isAlive: false, silentMs: 29_999 }],
  ]
  it.each(live)('is refused beside %s', async (_, changes, options) => {
    const found = { ...holder, ...changes }
    const { folder, outcome, held } = await lockOver(found, options)

    expect(outcome).toMatchObject({ name: 'StoreError', code: 'locked' })
    expect(String(outcome)).toContain(`${folder} is in use by process ${found.pid}`)
    expect(held).toEqual(found)
    expect(await readdir(folder)).toEqual(['lock.json'])
  })

  it.each(['', 'null', '{"pid":0}'])('that cannot be read is left alone and named (%j)', async (text) => {
    const folder = await makeTemporaryFolder()
    const path = join(folder, 'lock.json')
    await writeFile(path, text)

    const locking = lockFolder({ files: nodeFileSystem, folder, self })

    await expect(locking).rejects.toMatchObject({ code: 'locked', message: expect.stringContaining(path) })
    expect(await readFile(path, 'utf8')).toBe(text)
  })

  it('goes to one of many that find it stale at once', async () => {
    const folder = await makeTemporaryFolder()
    await writeFile(join(folder, 'lock.json'), JSON.stringify(holder))
    const isAlive = (one: LockHolder) => one.token !== 'theirs'
    const many = Array.from({ length: 8 }, (_, index) => ({ ...self, token: `token-${index}` }))

    const outcomes = await Promise.allSettled(
      many.map((one) => lockFolder({ files: nodeFileSystem, folder, self: one, isAlive })),
    )

    const refused = outcomes.flatMap((outcome) => (outcome.status === 'rejected' ? [outcome.reason as unknown] : []))
    expect(refused).toEqual(Array(7).fill(expect.objectContaining({ name: 'StoreError', code: 'locked' })))
    expect(await readdir(folder)).toEqual(['lock.json'])
  })

  it('is taken over from one that died while it took over from another', async () => {
    const folder = await makeTemporaryFolder()
    const taker = { ...holder, pid: 30, token: 'taker' }
    await writeFile(join(folder, 'lock.json'), JSON.stringify(holder))
    await writeFile(join(folder, 'lock.theirs.taken'), JSON.stringify(taker))

    await lockFolder({ files: nodeFileSystem, folder, self, isAlive: () => false })

    expect(await readdir(folder)).toEqual(['lock.json'])
    expect(JSON.parse(await readFile(join(folder, 'lock.json'), 'utf8'))).toEqual(self)
  })

  it('is refused while a living process takes it over', async () => {
    const folder = await makeTemporaryFolder()
    const taker = { ...holder, pid: 30, token: 'taker' }
    await writeFile(join(folder, 'lock.json'), JSON.stringify(holder))
    await writeFile(join(folder, 'lock.theirs.taken'), JSON.stringify(taker))

    const locking = lockFolder({ files: nodeFileSystem, folder, self, isAlive: (one) => one.pid === taker.pid })

    await expect(locking).rejects.toMatchObject({ code: 'locked', message: expect.stringContaining('by process 30') })
    expect((await readdir(folder)).sort()).toEqual(['lock.json', 'lock.theirs.taken'])
  })

  it('is lost when another lock stands in its place, and then removes nothing', async () => {
    const { path, lock } = await lockOver(holder, { isAlive: false })
    const held = await lock
    await writeFile(path, JSON.stringify(holder))

    await held.beat()
    await held.release()

    expect(held.isLost()).toBe(true)
    expect(JSON.parse(await readFile(path, 'utf8'))).toEqual(holder)
  })

  it('shows a sign of life with each beat, and stands again after it was removed by hand', async () => {
    const { path, lock } = await lockOver(holder, { isAlive: false, silentMs: 60_000 })
    const held = await lock
    await held.beat()
    const beatenAt = await nodeFileSystem.modifiedAt(path)
    await nodeFileSystem.remove(path)

    await held.beat()

    expect(beatenAt).toBe(1_060_000)
    expect(held.isLost()).toBe(false)
    expect(JSON.parse(await readFile(path, 'utf8'))).toEqual(self)
  })

  it('is taken on a disk without hard links too, and is as exclusive there', async () => {
    const folder = await makeTemporaryFolder()
    const files = watchFiles(folder)
    files.failNext('link', 'EPERM')
    const first = await lockFolder({ files, folder, self })
    files.failNext('link', 'EPERM')

    const second = lockFolder({ files, folder, self: { ...self, token: 'second' }, isAlive: () => true })

    await expect(second).rejects.toMatchObject({ code: 'locked' })
    await first.release()
    expect(await readdir(folder)).toEqual([])
  })
})

describe('an open store', () => {
  const chart = documentId('chart-1')

  it('beats every five seconds while it is open', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] })
    onTestFinished(() => void vi.useRealTimers())
    const folder = await makeTemporaryFolder()
    const files = watchFiles(folder)
    const store = createLowdbStore({ folder, files })
    await store.open()
    files.calls.length = 0

    vi.advanceTimersByTime(15_000)
    const beats = [...files.calls]
    await store.close()
    files.calls.length = 0
    vi.advanceTimersByTime(15_000)

    expect(beats).toEqual(Array(3).fill('readText lock.json'))
    expect(files.calls).toEqual([])
  })

  it('writes nothing more once another process has taken its folder', async () => {
    const folder = await makeTemporaryFolder()
    const held = await lockFolder({ files: nodeFileSystem, folder, self })
    const shelf = new FolderShelf({ folder, files: nodeFileSystem, steps: [], cipher: plain, lock: async () => held })
    const store = new ShelvedStore(shelf, 1)
    await store.open()
    await store.apply(chart, eventId('1'), countUp(chart))
    await writeFile(join(folder, 'lock.json'), JSON.stringify(holder))
    await held.beat()

    const late = store.apply(chart, eventId('2'), countUp(chart))

    await expect(late).rejects.toMatchObject({ name: 'StoreError', code: 'unavailable' })
    expect(await store.read(chart)).toMatchObject({ count: 1 })
    await store.close()
    expect(JSON.parse(await readFile(join(folder, 'lock.json'), 'utf8'))).toEqual(holder)
  })
})

describe('a process', () => {
  it('knows itself alive, and a later one with its number as another', () => {
    const own = describeOwnProcess()

    expect(isHolderAlive(own)).toBe(true)
    expect(isHolderAlive({ ...own, startedAt: null })).toBe(true)
    // Only Linux tells when a process started.
    expect(isHolderAlive({ ...own, startedAt: '1' })).toBe(own.startedAt === null)
  })

  it('knows a boot by its id, or by its time within ten minutes', () => {
    const cases = [['a', 'a'], ['a', 'b'], ['since:1000', 'since:1600'], ['since:1000', 'since:1601'], ['a', 'since:1000']]

    expect(cases.map(([a, b]) => isSameBoot(a!, b!))).toEqual([true, false, true, false, false])
  })
})

describe('a second process', () => {
  it('is refused within a second, is told who holds the folder, and follows once that one is killed', async () => {
    const folder = await makeTemporaryFolder()
    const first = startScript('hold-store', [folder])
    const opened = JSON.parse((await first.nextLine()) ?? 'null') as { code: string }
    const { pid } = JSON.parse(await readFile(join(folder, 'lock.json'), 'utf8')) as LockHolder
    const second = startScript('hold-store', [folder])
    const refused = JSON.parse((await second.nextLine()) ?? 'null') as { code: string; message: string; tookMs: number }
    first.kill('SIGKILL')
    await Promise.all([first.ended, second.ended])
    const store = createLowdbStore({ folder })

    await store.open()

    expect(opened.code).toBe('open')
    expect(refused).toMatchObject({ code: 'locked', message: expect.stringContaining(`in use by process ${pid}`) })
    expect(refused.message).toContain(folder)
    expect(refused.tookMs).toBeLessThan(1_000)
    await store.close()
    expect(await readdir(folder)).toEqual(['documents', 'volumes'])
  }, 30_000)
})
