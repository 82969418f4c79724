import type { Entry } from '#src/domain/entry.ts'
import type { DocumentCopy } from '#src/ports/archive.ts'
import type { Migration } from '#src/ports/migration.ts'
import { copyOf } from '../document-copy.ts'
import { createMemoryDisk, type MemoryDisk } from './memory-disk.ts'
import { listDocumentIds, createMemoryShelf } from './memory-shelf.ts'

/** Everything on a disk in memory as of now, whoever uses it. */
export async function* copyMemoryOut(disk: MemoryDisk, steps: readonly Migration[]): AsyncGenerator<DocumentCopy> {
  const still = createMemoryDisk()
  // Nothing else runs between the first text and the last.
  for (const key of disk.keys()) void still.put(key, disk.get(key) ?? '')
  const shelf = createMemoryShelf(still, steps)
  for (const id of listDocumentIds(still)) {
    const envelope = await shelf.read(id)
    if (envelope === null) throw new Error('a document that was listed is gone')
    const record: Entry[] = []
    for (let number = 1; number <= envelope.volumes; number += 1) record.push(...(await shelf.readVolume(id, number)))
    yield copyOf(envelope, [...record, ...envelope.entries])
  }
}
