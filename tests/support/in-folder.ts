import { documentMigrations } from '#src/chart/document-migrations.ts'
import type { Store } from '#src/ports/store.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'

/** The embedded store over a folder, open for as long as the work takes. */
export async function inFolder<T>(folder: string, work: (store: Store) => Promise<T>): Promise<T> {
  const store = createLowdbStore({ folder, steps: documentMigrations })
  await store.open()
  try {
    return await work(store)
  } finally {
    await store.close()
  }
}
