/** Identifiers are strings at rest and cannot be mixed up in code. None is ever reused. */
declare const brand: unique symbol
type Branded<Name extends string> = string & { readonly [brand]: Name }

export type DocumentId = Branded<'DocumentId'>
export type EventId = Branded<'EventId'>
export type EntryId = Branded<'EntryId'>
export type EffectId = Branded<'EffectId'>
export type AlertId = Branded<'AlertId'>
export type SessionId = Branded<'SessionId'>
export type ExerciseId = Branded<'ExerciseId'>
export type SignId = Branded<'SignId'>

/** A calendar day in some zone, as ISO 8601 `YYYY-MM-DD`. */
export type LocalDate = Branded<'LocalDate'>
/** Milliseconds since 1970-01-01T00:00Z. */
export type Instant = number

/** Gives a checked string its brand; the caller has done the checking. */
export function brandAs<T extends Branded<string>>(text: string): T {
  return text as T
}
