import type { StoredDocument } from '#src/ports/store.ts'

/** A document as it was stored, of whatever format. */
export type StoredRecord = Readonly<Record<string, unknown>> & StoredDocument

/** A step to the next format. Released steps are never changed, or stored documents would come out different by age. */
export interface Migration {
  /** The format that the step leads to. */
  readonly to: number
  readonly migrate: (document: StoredRecord) => Readonly<Record<string, unknown>>
}

const firstFormat = 1

/** By hand, in order, without gaps: 2, 3, 4… Released formats so far: 1. */
export const migrations: readonly Migration[] = []

/** The format that documents have after all of `list`. */
export function formatAfter(list: readonly Migration[]): number {
  list.forEach((migration, index) => {
    const expected = firstFormat + index + 1
    if (migration.to !== expected) throw new Error(`migration ${index + 1} must lead to format ${expected}`)
  })
  return firstFormat + list.length
}

/** The document in the newest format. It keeps its id and kind; its format is set here, not by the steps. */
export function migrateDocument(document: StoredRecord, list: readonly Migration[]): StoredDocument {
  const steps = list.filter((migration) => migration.to > document.format)
  return steps.reduce<StoredRecord>(
    (before, step) => ({ ...step.migrate(before), id: before.id, kind: before.kind, format: step.to }),
    document,
  )
}
