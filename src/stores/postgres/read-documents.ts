import type { DocumentId } from '#src/domain/identifier.ts'
import type { DocumentCopy } from '#src/ports/archive.ts'
import type { Migration } from '#src/ports/migration.ts'
import type { Cipher } from '../cipher.ts'
import { readOutbox, toOwed } from './commit-answer.ts'
import { openConnections } from './connections.ts'
import { refuseFilling } from './filling.ts'
import { checkKey } from './key-check.ts'
import { createRows } from './rows.ts'
import { isPrepared } from './schema.ts'

/** Every document without its record, beside the processes at work, in one snapshot; null where nothing was ever stored. */
export async function readDocuments(url: string, steps: readonly Migration[], cipher: Cipher): Promise<readonly Pick<DocumentCopy, 'document' | 'head' | 'owed'>[] | null> {
  const connections = openConnections({ url, size: 1 })
  const rows = createRows(cipher, steps)
  try {
    if (!(await isPrepared(connections))) return null
    await checkKey(connections, cipher)
    await refuseFilling(connections.run)
    return await connections.transaction(async (run) => {
      const found = await run<{ id: DocumentId; body: string; head: string; owing: number }>('SELECT id, body, head, owing FROM nuchal.document ORDER BY id')
      const read = []
      for (const { id, body, head, owing } of found) {
        const outbox = owing === 0 ? [] : await readOutbox(run, id)
        read.push({ document: rows.readDocument(id, body), head: rows.readHead(id, head), owed: outbox.map((one) => toOwed(rows, id, one, [])) })
      }
      return read
    }, 'snapshot')
  } finally {
    await connections.close()
  }
}
