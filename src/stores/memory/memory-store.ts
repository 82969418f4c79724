import type { Archive } from '#src/ports/archive.ts'
import type { Store } from '#src/ports/store.ts'
import { formatAfter, noMigrations } from '../migrations.ts'
import { ShelvedStore } from '../shelved-store.ts'
import { createMemoryDisk } from './memory-disk.ts'
import { createMemoryShelf } from './memory-shelf.ts'

/** A store for rehearsals and tests, as strict as those that last. */
export function createMemoryStore(disk = createMemoryDisk(), steps = noMigrations): Store & Pick<Archive, 'copyIn'> {
  return new ShelvedStore(createMemoryShelf(disk, steps), formatAfter(steps))
}
