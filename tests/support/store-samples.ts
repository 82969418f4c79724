import type { Entry } from '#src/domain/entry.ts'
import { brandAs } from '#src/domain/identifier.ts'
import type { DocumentId, EffectId, EntryId, EventId } from '#src/domain/identifier.ts'
import type { Effect } from '#src/domain/message.ts'
import type { Commit, DocumentKind, Head, StoredDocument } from '#src/ports/store.ts'

/** The smallest document that can be told right from wrong: a count, and whatever else a test puts in. */
export interface Tally extends StoredDocument {
  readonly count: number
  readonly note?: string
}

export const documentId = (text: string) => brandAs<DocumentId>(text)
export const eventId = (text: string) => brandAs<EventId>(text)
export const effectId = (text: string) => brandAs<EffectId>(text)

export function makeTally(id: DocumentId, count: number, kind: DocumentKind = 'chart'): Tally {
  return { kind, id, format: 1, count }
}

export function makeHead(id: DocumentId, changes: Partial<Head> = {}): Head {
  return {
    id,
    kind: 'chart',
    name: 'Ada',
    contacts: [],
    nextDueAt: null,
    openAlerts: 0,
    isLocked: false,
    approvalsWaiting: 0,
    lastSessionAt: null,
    ...changes,
  }
}

export function makeEntry(text: string, data: Readonly<Record<string, unknown>> = {}): Entry {
  return { id: brandAs<EntryId>(text), at: 0, kind: 'answer', by: 'client', data }
}

export function makeSend(text: string): Effect {
  return {
    kind: 'send',
    id: effectId(text),
    to: { channel: 'browser', address: 'a' },
    message: { text: `text of ${text}`, buttons: [[{ label: 'Yes', data: 'yes' }]] },
    urgency: 'reply',
  }
}

export function makeCommit(document: Tally, changes: Partial<Commit<Tally>> = {}): Commit<Tally> {
  const head = makeHead(document.id, { kind: document.kind })
  return { document, head, entries: [], effects: [], closesVolume: false, ...changes }
}

/** A decision that counts one up and changes the rest of the commit as asked. */
export function countUp(id: DocumentId, changes: Partial<Commit<Tally>> = {}) {
  return (document: Tally | null): Commit<Tally> => makeCommit(makeTally(id, (document?.count ?? 0) + 1), changes)
}
