// From format 1 (version 0.1.0) to format 2. Stands alone: it must do tomorrow what it does today, so it uses no rule and no
// beginning of a document that may change. What was written on the way to the next version, in the new shape and still
// called format 1, is left as it is.
import type { DocumentKind } from '#src/ports/store.ts'
import type { Migration, StoredRecord } from '#src/ports/migration.ts'
import { chartToFormat2 } from './chart-to-format-2.ts'

type Fields = Readonly<Record<string, unknown>>

const byKind: Readonly<Record<DocumentKind, (document: StoredRecord) => Fields>> = {
  clinic: (clinic) => clinic,
  desk: deskToFormat2,
  chart: chartToFormat2,
}

/** What is open of a client comes to the desk with the next event of the client's chart, which says so (`isKnownToDesk`). */
function deskToFormat2(desk: Fields): Fields {
  return { away: null, openMatters: [], held: [], sentAlerts: [], timers: [], ...desk }
}

/** Whom a message to everybody leaves out was one desk. */
function toldToFormat2(told: unknown): unknown {
  const { kind, except } = told as { readonly kind: string; readonly except?: unknown }
  return kind === 'show-all' && typeof except === 'string' ? { ...(told as Fields), except: [except] } : told
}

export const toFormat2: Migration = { to: 2, migrate: (document) => byKind[document.kind](document), migrateTold: toldToFormat2 }
