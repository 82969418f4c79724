import type { EntryId, Instant } from './identifier.ts'

/** One line of a record: an answer, a decision, an alert, a therapist's act. Never edited, only amended by a later one. */
export interface Entry {
  readonly id: EntryId
  readonly at: Instant
  readonly kind: string
  readonly by: string
  readonly data: Readonly<Record<string, unknown>>
}
