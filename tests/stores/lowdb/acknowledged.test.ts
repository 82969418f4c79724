// What it means that a write is acknowledged: this very one is on the disk, the file by its content and the folder by its names.
import { readFileSync, readlinkSync } from 'node:fs'
import { mkdir, open } from 'node:fs/promises'
import { join, relative } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { countUp, documentId, eventId, makeEntry } from '#tests/support/store-samples.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { watchFiles } from '#tests/support/watched-files.ts'

const chart = documentId('chart-1')

interface Handle {
  readonly fd: number
  sync(): Promise<void>
}

/** Notes what is synced by the system's own call, by the path that the open descriptor leads to. */
async function watchSyncs(folder: string): Promise<string[]> {
  await mkdir(folder, { recursive: true })
  const probe = await open(folder, 'r')
  const calls = Object.getPrototypeOf(probe) as Handle
  await probe.close()
  const sync = calls.sync
  const synced: string[] = []
  calls.sync = function (this: Handle) {
    synced.push(relative(folder, readlinkSync(`/proc/self/fd/${this.fd}`)))
    return sync.call(this)
  }
  onTestFinished(() => {
    calls.sync = sync
  })
  return synced
}

describe('a write', () => {
  it('resolves when its own data is on the disk, without waiting for later ones', async () => {
    const folder = await makeTemporaryFolder()
    const files = watchFiles(folder)
    const store = createLowdbStore({ folder, files })
    await store.open()
    files.calls.length = 0
    const countOnDisk = (): number => Number(/"count":(\d+)/.exec(readFileSync(join(folder, 'documents/chart-1.json'), 'utf8'))?.[1])
    const renamed = (): number => files.calls.filter((call) => call.startsWith('rename documents/chart-1.json.tmp')).length

    const seen = await Promise.all(
      Array.from({ length: 100 }, async (_, index) => {
        await store.apply(chart, eventId(String(index)), countUp(chart, { entries: [makeEntry(String(index))] }))
        return { own: index + 1, onDisk: countOnDisk(), renamed: renamed() }
      }),
    )

    expect(seen.filter(({ own, onDisk }) => onDisk < own)).toEqual([])
    // The next one has begun at most.
    expect(seen.filter((one) => one.renamed > one.own + 1)).toEqual([])
    await store.close()
  })

  // POSIX.1-2024 fsync(): syncing a file does not sync its name. Descriptors can be looked up by path on Linux only.
  it.runIf(process.platform === 'linux')('has the system sync the file before its name stands, and then the folder', async () => {
    const folder = await makeTemporaryFolder()
    const store = createLowdbStore({ folder })
    await store.open()
    const synced = await watchSyncs(folder)

    await store.apply(chart, eventId('1'), countUp(chart))

    expect(synced).toEqual(['documents/chart-1.json.tmp', 'documents'])
    await store.close()
  })
})
