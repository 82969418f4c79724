import { createHash } from 'node:crypto'
import type { DocumentCopy } from '#src/ports/archive.ts'
import { StoreError } from '#src/ports/store.ts'
import { canonicalJson } from './canonical-json.ts'

export interface Compared {
  readonly documents: number
  readonly entries: number
  /** SHA-256 over the documents' hashes, in order: two clinics with the same one hold the same. */
  readonly sha256: string
}

/** Goes through both side by side, which memory does not grow with; rejects `damaged` at the first document that differs. */
export async function compareCopies(
  expected: AsyncIterable<DocumentCopy>,
  found: AsyncIterable<DocumentCopy>,
  onDocument: () => void = () => {},
): Promise<Compared> {
  const other = found[Symbol.asyncIterator]()
  const all = createHash('sha256')
  let [documents, entries] = [0, 0]
  try {
    for await (const copy of expected) {
      const { value, done } = await other.next()
      const hash = hashOf(copy)
      if (done === true || hash !== hashOf(value)) throw describeDifference(documents + 1)
      all.update(hash)
      documents += 1
      entries += copy.entries.length
      onDocument()
    }
    if ((await other.next()).done !== true) throw describeDifference(documents + 1)
  } finally {
    await other.return?.()
  }
  return { documents, entries, sha256: all.digest('hex') }
}

function hashOf(copy: DocumentCopy): string {
  return createHash('sha256').update(canonicalJson(copy)).digest('hex')
}

function describeDifference(place: number): StoreError {
  return new StoreError('damaged', `What was put in does not come back as it was, from document ${place} on. It was taken out again; look whether the disk works, then try anew.`)
}
