// A whole clinic in memory on a virtual clock: the very step and routing that serve people, with screens instead of
// networks. Every document goes through JSON after every event, as it would through a store and a restart.
import { isDeepStrictEqual } from 'node:util'
import { flows as shippedFlows } from '#flows/registry.ts'
import type { Chart } from '#src/chart/chart.ts'
import type { Clinic } from '#src/chart/clinic.ts'
import { clinicId } from '#src/chart/clinic.ts'
import type { Desk } from '#src/chart/desk.ts'
import type { Event, Told } from '#src/chart/event.ts'
import { headOf, type AnyDocument } from '#src/chart/head.ts'
import { route } from '#src/chart/route.ts'
import { blankDocument, createStep, type Step } from '#src/chart/step.ts'
import type { Happening } from '#src/commands/rehearse/virtual-clinic.ts'
import type { Content } from '#src/content/content.ts'
import type { Flows } from '#src/conversation/flow.ts'
import type { Entry } from '#src/domain/entry.ts'
import { brandAs, type DocumentId, type EventId, type Instant } from '#src/domain/identifier.ts'
import type { Contact, Effect } from '#src/domain/message.ts'
import type { Inbound } from '#src/ports/channel.ts'
import type { Head } from '#src/ports/store.ts'
import { content } from './sample-chain.ts'
import { Person, type Incoming } from './person.ts'

/** What was put to a document, so that it can be put to a store as well. */
export interface Taken {
  readonly to: DocumentId
  readonly event: Event
  readonly at: Instant
}

export class ClinicRig {
  now: Instant
  readonly entries: Entry[] = []
  /** Every event so far, in order. */
  readonly taken: Taken[] = []
  private step: Step
  private readonly people = new Map<string, Person>()
  private readonly documents = new Map<DocumentId, AnyDocument>()
  private events = 0

  constructor(startsAt: string, flows: Flows = shippedFlows) {
    this.now = Date.parse(startsAt)
    this.step = createStep(content, flows)
  }

  /** Started again with other content over the same documents. */
  startAgainWith(other: Content): this {
    this.step = createStep(other, shippedFlows)
    return this
  }

  person(address: string): Person {
    const known = this.people.get(address)
    const person = known ?? new Person(address, (inbound) => this.receive(inbound))
    this.people.set(address, person)
    return person
  }

  chart(id: DocumentId): Chart {
    return this.document(id) as Chart
  }

  desk(id: DocumentId): Desk {
    return this.document(id) as Desk
  }

  clinic(): Clinic {
    return this.document(clinicId) as Clinic
  }

  /** Puts a document in place as if it had been stored by another version. */
  store(document: AnyDocument): void {
    this.documents.set(document.id, document)
  }

  receive(inbound: Incoming): void {
    const id = this.nextId()
    const secret = `token-${this.events}`
    const whole = { ...inbound, id } as Inbound
    const { document, event } = route(whole, this.headAt(inbound.from), { token: secret, link: `https://chat.example/${secret}` })
    this.take(document, event)
  }

  tell(to: DocumentId, told: Told): void {
    this.take(to, { id: this.nextId(), kind: 'told', from: clinicId, told })
  }

  submit(to: DocumentId, event: Happening): void {
    this.take(to, { ...event, id: this.nextId() } as Event)
  }

  /** Moves the clock, firing every timer at its own instant. */
  moveTo(iso: string): void {
    this.advanceTo(Date.parse(iso))
  }

  pass(amount: { readonly days?: number; readonly hours?: number; readonly minutes?: number; readonly seconds?: number }): void {
    const { days = 0, hours = 0, minutes = 0, seconds = 0 } = amount
    this.advanceTo(this.now + (((days * 24 + hours) * 60 + minutes) * 60 + seconds) * 1000)
  }

  /** The machine was off meanwhile: what fell due fires only now, once. */
  sleepUntil(iso: string): void {
    this.now = Date.parse(iso)
    this.advanceTo(this.now)
  }

  private advanceTo(instant: Instant): void {
    for (;;) {
      const due = this.nextDue(instant)
      if (!due) break
      this.now = Math.max(this.now, due.nextDueAt ?? 0)
      const before = this.document(due.id)
      this.take(due.id, { id: this.nextId(), kind: 'wake' })
      if (this.document(due.id) === before) throw new Error(`a wake-up of ${due.id} changes nothing, though a timer is due`)
    }
    this.now = Math.max(this.now, instant)
  }

  private nextDue(instant: Instant): Head | undefined {
    return [...this.documents.values()]
      .map((document) => headOf(document))
      .filter((head) => head.nextDueAt !== null && head.nextDueAt <= instant)
      .toSorted((a, b) => (a.nextDueAt ?? 0) - (b.nextDueAt ?? 0))[0]
  }

  private headAt({ channel, address }: Contact): Head | null {
    const heads = [...this.documents.values()].map((document) => headOf(document))
    return heads.find(({ contacts }) => contacts.some((contact) => contact.channel === channel && contact.address === address)) ?? null
  }

  private document(id: DocumentId): AnyDocument {
    return this.documents.get(id) ?? blankDocument(id, content)
  }

  private nextId(): EventId {
    this.events += 1
    return brandAs<EventId>(`rig-${this.events}`)
  }

  private take(id: DocumentId, event: Event): void {
    this.taken.push({ to: id, event, at: this.now })
    const before = this.document(id)
    const { document, entries, effects } = this.step(before, event, this.now)
    if (document !== before) this.documents.set(id, throughJson(document))
    this.entries.push(...throughJson([...entries]))
    for (const effect of effects) this.deliver(id, throughJson(effect))
  }

  private deliver(owner: DocumentId, effect: Effect): void {
    if (effect.kind === 'tell') {
      this.take(effect.to, { id: brandAs<EventId>(effect.id), kind: 'told', from: owner, told: effect.told as Told })
      return
    }
    if (effect.kind === 'send') checkButtons(effect)
    const person = this.person(effect.to.address)
    if (!person.isBlocking) person.take(effect, this.now)
    else if (effect.kind === 'send') this.submit(owner, { kind: 'undeliverable', effect, reason: 'unreachable' })
  }
}

/** What JSON would change or lose could not be stored. */
function throughJson<T>(value: T): T {
  const stored = JSON.parse(JSON.stringify(value)) as T
  if (!isDeepStrictEqual(stored, value)) throw new Error('a document, an entry or an effect does not survive JSON')
  return stored
}

function checkButtons({ message }: Extract<Effect, { kind: 'send' }>): void {
  const sizes = message.buttons.flat().map(({ data }) => Buffer.byteLength(data, 'utf8'))
  // The Bot API's limits for button data, kept for every network: 1 to 64 bytes.
  if (sizes.some((size) => size < 1 || size > 64)) throw new Error('a button has data outside 1 to 64 bytes')
  if (message.text.trim() === '') throw new Error('an empty message')
}
