import type { Entry } from '#src/domain/entry.ts'
import type { DocumentId, EffectId, EventId } from '#src/domain/identifier.ts'
import type { Effect } from '#src/domain/message.ts'
import type { Commit, Delivery, DocumentKind, Head, Owed, StoredDocument } from '#src/ports/store.ts'
import { appendKept, writeJson } from './keep-json.ts'

/** The version of the envelope around a document; the document's own is {@link StoredDocument.format}. */
export const envelopeFormat = 1

/** The port's promise. A set, not a maximum: networks restart their numbering. */
export const rememberedEvents = 200
/** Our choice: nobody amends a message more than fifty messages back. */
export const rememberedRefs = 50
/** Our choice: keeps the write of one answer small when a session never closes. */
export const openEntriesMaxBytes = 64 * 1024

export interface OwedEffect {
  readonly effect: Effect
  readonly attempts: number
}

export interface SentRef {
  readonly effect: EffectId
  readonly ref: string
}

/** A document with all that one answer changes, so that one answer is one write. */
export interface Envelope {
  readonly format: typeof envelopeFormat
  readonly kind: DocumentKind
  readonly id: DocumentId
  readonly document: StoredDocument
  readonly head: Head
  readonly seen: readonly EventId[]
  readonly owed: readonly OwedEffect[]
  readonly refs: readonly SentRef[]
  /** Those since the last volume. */
  readonly entries: readonly Entry[]
  /** How many volumes came before; they are numbered from 1. */
  readonly volumes: number
}

/** What a commit makes of an envelope, and the entries that leave it for the volume numbered `envelope.volumes`. */
export interface CommittedEnvelope {
  readonly envelope: Envelope
  readonly volume: readonly Entry[] | null
}

export function commitToEnvelope(before: Envelope | null, event: EventId, commit: Commit): CommittedEnvelope {
  const entries = appendKept(before?.entries ?? [], commit.entries)
  const closes = entries.length > 0 && (commit.closesVolume || bytesOfEntries(entries) > openEntriesMaxBytes)
  const volumes = before?.volumes ?? 0
  const envelope: Envelope = {
    format: envelopeFormat,
    kind: commit.document.kind,
    id: commit.document.id,
    document: commit.document,
    head: commit.head,
    seen: appendKept(before?.seen ?? [], [event], rememberedEvents),
    owed: [...(before?.owed ?? []), ...commit.effects.map((effect) => ({ effect, attempts: 0 }))],
    refs: before?.refs ?? [],
    entries: closes ? [] : entries,
    volumes: closes ? volumes + 1 : volumes,
  }
  return { envelope, volume: closes ? entries : null }
}

const endsDebt: Record<Delivery['kind'], boolean> = { delivered: true, abandoned: true, tried: false }

/** An effect that is not owed (any more) is left as it is: marks may come twice. */
export function settleInEnvelope(envelope: Envelope, effect: EffectId, delivery: Delivery): Envelope {
  const isOwed = envelope.owed.some((owed) => owed.effect.id === effect)
  if (!isOwed) return envelope
  const owed = endsDebt[delivery.kind]
    ? envelope.owed.filter((one) => one.effect.id !== effect)
    : envelope.owed.map((one) => (one.effect.id === effect ? { ...one, attempts: one.attempts + 1 } : one))
  const ref = delivery.kind === 'delivered' ? delivery.ref : null
  const refs = ref === null ? envelope.refs : appendKept(envelope.refs, [{ effect, ref }], rememberedRefs)
  return { ...envelope, owed, refs }
}

export function listOwed(envelope: Envelope | null): readonly Owed[] {
  if (envelope === null) return []
  return envelope.owed.map(({ effect, attempts }) => ({ document: envelope.id, effect, attempts }))
}

/** As JSON, which for a list that has grown by commits is at hand. */
export function bytesOfEntries(entries: readonly Entry[]): number {
  return Buffer.byteLength(writeJson(entries))
}
