// A thousand commits a second for ten seconds (check 34), and a year of diaries of a thousand clients (check 35).
import { readFileSync } from 'node:fs'
import { brandAs, type EventId } from '#src/domain/identifier.ts'
import { StoreError, type Commit, type Store, type StoredDocument } from '#src/ports/store.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { nodeFileSystem, type FileSystem } from '#src/stores/lowdb/file-system.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { makeSystemError } from '#tests/support/system-error.ts'
import { atLeast, atMost, quantileOf, type Figure } from '../figure.ts'
import { documentPath, makeFolder, placeClients, removeFolder } from './clinic-folder.ts'
import { chartOf } from './history.ts'
import type { Pasts } from './past-client.ts'

/** Platform facts, checks 34 and 35. */
const limits = { p99Ms: 500, blockedMs: 100 }
const clients = 1000
const writesPerSecond = 1000
const seconds = 10
const lesserRates = [100, 200, 300, 400, 500, 600, 800]
/** Of the promises: how many look into their file when they resolve. */
const lookEvery = 50
const yearWeeks = 52

/** The document once more under another event: what any answer writes, without the step. */
function again(store: Store, number: number, event: EventId): Promise<{ readonly applied: boolean }> {
  const id = chartOf(number)
  return store.apply(id, event, (document: StoredDocument | null): Commit | null => {
    if (document === null) return null
    const head = { id, kind: document.kind, name: '', contacts: [], nextDueAt: null, openAlerts: 0, isLocked: false, approvalsWaiting: 0, lastSessionAt: null }
    return { document, head, entries: [], effects: [], closesVolume: false }
  })
}

export async function measureWriteLoad(pasts: Pasts): Promise<readonly Figure[]> {
  const folder = makeFolder()
  placeClients(folder, await pasts(yearWeeks), Array.from({ length: clients }, (_, index) => index + 1))
  const disk = { isFull: false }
  const store = createLowdbStore({ folder, steps: documentMigrations, files: fillable(disk) })
  await store.open()
  try {
    return [...(await measureLoads(store, folder)), ...(await blockLoop(store)), await fillDisk(store, disk)]
  } finally {
    await store.close()
    removeFolder(folder)
  }
}

interface Load {
  /** How long 99 of 100 waited at most, in ms. */
  readonly p99Ms: number
  /** Writes that resolved before their own data were in the file. */
  readonly missing: number
  /** Done a second, until the last was done. */
  readonly perSecond: number
}

async function writeSteadily(store: Store, folder: string, perSecond: number, forSeconds: number): Promise<Load> {
  const waits: number[] = []
  const writes: Promise<void>[] = []
  let missing = 0
  const started = performance.now()
  const write = async (count: number): Promise<void> => {
    const number = 1 + (count % clients)
    const event = brandAs<EventId>(`load-${perSecond}-${count}`)
    const asked = performance.now()
    await again(store, number, event)
    waits.push(performance.now() - asked)
    // The same file may hold a later event as well by now; its own must be there in any case.
    if (count % lookEvery === 0 && !readFileSync(documentPath(folder, chartOf(number)), 'utf8').includes(`"${event}"`)) missing += 1
  }
  for (let asked = 0; asked < perSecond * forSeconds; ) {
    const due = Math.min(perSecond * forSeconds, Math.floor(((performance.now() - started) * perSecond) / 1000))
    for (; asked < due; asked += 1) writes.push(write(asked))
    await new Promise((resolve) => setTimeout(resolve, 1))
  }
  await Promise.all(writes)
  return { p99Ms: quantileOf(waits, 0.99), missing, perSecond: (writes.length * 1000) / (performance.now() - started) }
}

async function measureLoads(store: Store, folder: string): Promise<readonly Figure[]> {
  const most = await writeSteadily(store, folder, writesPerSecond, seconds)
  let held = 0
  for (const rate of lesserRates) {
    const { p99Ms } = await writeSteadily(store, folder, rate, seconds / 2)
    if (p99Ms <= limits.p99Ms) held = rate
  }
  return [
    atMost(`${writesPerSecond} writes/s for ${seconds} s: milliseconds that 99 of 100 wait at most`, most.p99Ms, limits.p99Ms),
    atMost('writes that resolved before their own data were in the file', most.missing, 0),
    atMost(`writes/s that the disk took`, most.perSecond, null),
    atMost(`writes/s at which 99 of 100 wait for ${limits.p99Ms} ms at most, of ${lesserRates.join(', ')}`, held, null),
  ]
}

/** Processor time, since other processes on the machine also keep the loop waiting: no write can block it for longer. */
async function blockLoop(store: Store): Promise<readonly Figure[]> {
  let most = 0
  for (let number = 1; number <= clients; number += 1) {
    const before = process.cpuUsage()
    await again(store, number, brandAs<EventId>('block'))
    const { user, system } = process.cpuUsage(before)
    most = Math.max(most, (user + system) / 1000)
  }
  return [atMost(`a write among ${clients} clients with a year of diary: milliseconds of processor, at most`, most, limits.blockedMs)]
}

/** Whoever asked hears that there is no room, and the next write after some was made is done. */
async function fillDisk(store: Store, disk: { isFull: boolean }): Promise<Figure> {
  disk.isFull = true
  const outcomes = await Promise.allSettled(Array.from({ length: 50 }, (_, index) => again(store, index + 1, brandAs<EventId>('full'))))
  disk.isFull = false
  const refused = outcomes.filter((outcome) => outcome.status === 'rejected' && outcome.reason instanceof StoreError && outcome.reason.code === 'full')
  const { applied } = await again(store, 1, brandAs<EventId>('full'))
  return atLeast('a full disk reaches those who asked for a write: of all, and the next one is done', applied ? refused.length / outcomes.length : 0, 1)
}

function fillable(disk: { readonly isFull: boolean }): FileSystem {
  return {
    ...nodeFileSystem,
    async create(path, mode) {
      const file = await nodeFileSystem.create(path, mode)
      const write = async (text: string): Promise<void> => {
        if (disk.isFull) throw makeSystemError('ENOSPC')
        await file.write(text)
      }
      return { ...file, write }
    },
  }
}
