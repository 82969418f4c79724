// Where a clinic of the crash script stores: nothing but its environment differs.
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { KillKind } from './kill-kinds.ts'

export const storeKinds = ['lowdb', 'postgres'] as const
export type StoreKind = (typeof storeKinds)[number]

export interface TestStore {
  /** A new, empty place. */
  open(): Promise<Readonly<Record<string, string>>>
  /** Several processes may have it: what one owed when it was killed is sent by another once it counts as dead. */
  readonly isShared: boolean
  readonly restartDatabase: (() => Promise<void>) | null
  /** Whether whoever started at `at` may have found no database. */
  wasAwaySince(at: number): boolean
  /** What can happen to this store alone. */
  readonly killKinds: readonly KillKind[]
  close(): Promise<void>
}

export const openTestStore: Readonly<Record<StoreKind, () => Promise<TestStore>>> = { lowdb: openFolders, postgres: openDatabases }

async function openFolders(): Promise<TestStore> {
  const root = await mkdtemp(join(tmpdir(), 'nuchal-crash-'))
  return {
    open: async () => ({ DATA_DIR: await mkdtemp(join(root, 'clinic-')) }),
    isShared: false,
    restartDatabase: null,
    wasAwaySince: () => false,
    killKinds: ['disk full'],
    close: () => rm(root, { recursive: true, force: true }),
  }
}

async function openDatabases(): Promise<TestStore> {
  // Only where it is needed: it hooks itself into the end of the process.
  const { startPostgres } = await import('#tests/support/postgres-server.ts')
  const folders = await openFolders()
  const server = await startPostgres({ isDurable: true })
  return {
    async open() {
      const { DATA_DIR = '' } = await folders.open()
      return { DATA_DIR, DATABASE_URL: await server.makeDatabase() }
    },
    isShared: true,
    restartDatabase: () => server.restart(),
    wasAwaySince: (at) => server.wasAwaySince(at),
    killKinds: ['database restarted'],
    async close() {
      await server.stop()
      await folders.close()
    },
  }
}
