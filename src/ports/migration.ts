import type { StoredDocument } from './store.ts'

/** A document as it was stored, of whatever format. */
export type StoredRecord = Readonly<Record<string, unknown>> & StoredDocument

/** A step to the next format. Released steps are never changed, or stored documents would come out different by age. */
export interface Migration {
  /** The format that the step leads to. */
  readonly to: number
  /** Total and pure: whatever a released version has stored comes out whole, and always the same. */
  readonly migrate: (document: StoredRecord) => Readonly<Record<string, unknown>>
  /** The same for what a document still has to tell another; left out where nothing of it has changed. */
  readonly migrateTold?: (told: unknown) => unknown
}
