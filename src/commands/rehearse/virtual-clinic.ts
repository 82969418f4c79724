// A clinic on a virtual clock, for rehearsals: the very step that serves real clients, with nothing stored and nothing sent.
import { blankDocument, type Step } from '#src/chart/step.ts'
import type { Chart } from '#src/chart/chart.ts'
import { headOf, type AnyDocument } from '#src/chart/head.ts'
import type { Event, EventOf, Told } from '#src/chart/event.ts'
import type { Content } from '#src/content/content.ts'
import type { Entry } from '#src/domain/entry.ts'
import { brandAs, type DocumentId, type EventId, type Instant } from '#src/domain/identifier.ts'
import type { Effect } from '#src/domain/message.ts'

type Send = Extract<Effect, { kind: 'send' }>
/** An event before it has its id. */
export type Happening = { readonly [Kind in Event['kind']]: Omit<EventOf<Kind>, 'id'> }[Event['kind']]

export class VirtualClinic {
  readonly sent: Send[] = []
  readonly entries: Entry[] = []
  private readonly documents = new Map<DocumentId, AnyDocument>()
  private events = 0
  private readonly step: Step
  private readonly content: Content
  now: Instant

  constructor(step: Step, content: Content, now: Instant) {
    this.step = step
    this.content = content
    this.now = now
  }

  chart(id: DocumentId): Chart {
    const document = this.document(id)
    if (document.kind !== 'chart') throw new RangeError(`${id} is no chart`)
    return document
  }

  /** One event, and everything that the documents then tell each other. */
  submit(document: DocumentId, happening: Happening): void {
    this.events += 1
    this.take(document, { ...happening, id: brandAs<EventId>(`virtual-${this.events}`) } as Event)
  }

  /** Moves the clock, firing every timer at its own instant. */
  advanceTo(instant: Instant): void {
    for (;;) {
      const due = [...this.documents.values()]
        .map((document) => headOf(document))
        .filter((head) => head.nextDueAt !== null && head.nextDueAt <= instant)
        .toSorted((a, b) => (a.nextDueAt ?? 0) - (b.nextDueAt ?? 0))[0]
      if (!due) break
      this.now = Math.max(this.now, due.nextDueAt ?? 0)
      this.submit(due.id, { kind: 'wake' })
    }
    this.now = instant
  }

  private document(id: DocumentId): AnyDocument {
    return this.documents.get(id) ?? blankDocument(id, this.content)
  }

  private take(id: DocumentId, event: Event): void {
    const { document, entries, effects } = this.step(this.document(id), event, this.now)
    this.documents.set(id, document)
    if (document.kind === 'chart') this.entries.push(...entries)
    for (const effect of effects) {
      if (effect.kind === 'send') this.sent.push(effect)
      if (effect.kind === 'tell') this.take(effect.to, { id: brandAs<EventId>(effect.id), kind: 'told', from: id, told: effect.told as Told })
    }
  }
}
