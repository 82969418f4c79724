import type { Effect } from '#src/domain/message.ts'
import type { Migration, StoredRecord } from '#src/ports/migration.ts'
import type { StoredDocument } from '#src/ports/store.ts'

const firstFormat = 1

/** For documents that have had one format only; whose documents have had more hands its own list in, as `src/app.ts` does. */
export const noMigrations: readonly Migration[] = []

/** The format that documents have after all of `list`, which runs without gaps: 2, 3, 4… */
export function formatAfter(list: readonly Migration[]): number {
  list.forEach((migration, index) => {
    const expected = firstFormat + index + 1
    if (migration.to !== expected) throw new Error(`migration ${index + 1} must lead to format ${expected}`)
  })
  return firstFormat + list.length
}

/** What a document of that format still owes, in the newest: a tell is read by today's rules, whenever it was written. */
export function migrateEffect(effect: Effect, format: number, list: readonly Migration[]): Effect {
  if (effect.kind !== 'tell') return effect
  const steps = list.filter((migration) => migration.to > format)
  const told = steps.reduce<unknown>((before, step) => (step.migrateTold === undefined ? before : step.migrateTold(before)), effect.told)
  return { ...effect, told }
}

/** The document in the newest format. It keeps its id and kind; its format is set here, not by the steps. */
export function migrateDocument(document: StoredRecord, list: readonly Migration[]): StoredDocument {
  const steps = list.filter((migration) => migration.to > document.format)
  return steps.reduce<StoredRecord>(
    (before, step) => ({ ...step.migrate(before), id: before.id, kind: before.kind, format: step.to }),
    document,
  )
}
