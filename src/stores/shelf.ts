import type { Entry } from '#src/domain/entry.ts'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Envelope } from './envelope.ts'

/**
 * Where envelopes and volumes are kept. A write resolves once it is durable; a write that rejects leaves reads as they
 * were. The store above calls it for one document one at a time.
 */
export interface Shelf {
  /** Takes the shelf for this process, checks every envelope and shows each one to `visit`. */
  open(visit: (envelope: Envelope) => void): Promise<void>
  close(): Promise<void>
  /** Frozen, see `keepJson`. */
  read(id: DocumentId): Promise<Envelope | null>
  write(envelope: Envelope): Promise<void>
  readVolume(id: DocumentId, number: number): Promise<readonly Entry[]>
  /** Replaces an orphan: a volume whose envelope was never written. */
  writeVolume(id: DocumentId, number: number, entries: readonly Entry[]): Promise<void>
  /** Removes the envelope and every volume, also where an earlier try stopped half way. */
  erase(id: DocumentId): Promise<void>
}
