import type { DocumentId, Instant } from '#src/domain/identifier.ts'
import type { Contact } from '#src/domain/message.ts'
import type { DocumentKind, Head } from '#src/ports/store.ts'

/** A clinic's contacts are nobody's conversation. If several claim a contact, the lower place wins, then the id. */
const placeByKind: Record<DocumentKind, number | null> = { clinic: null, desk: 0, chart: 1 }

interface Due {
  readonly at: Instant
  readonly id: DocumentId
}

/** All heads in memory, with the two look-ups that must not read them all. */
export class HeadIndex {
  readonly #heads = new Map<DocumentId, Head>()
  readonly #claims = new Map<string, Set<DocumentId>>()
  /** Kept sorted by instant, then id. */
  readonly #due: Due[] = []

  /** `head` becomes the index's own and is frozen. */
  put(head: Head): void {
    this.remove(head.id)
    this.#heads.set(head.id, freezeHead(head))
    for (const key of contactKeys(head)) {
      const claims = this.#claims.get(key) ?? new Set()
      this.#claims.set(key, claims.add(head.id))
    }
    if (head.nextDueAt !== null) {
      const due = { at: head.nextDueAt, id: head.id }
      this.#due.splice(this.#placeOf(due), 0, due)
    }
  }

  remove(id: DocumentId): void {
    const head = this.#heads.get(id)
    if (head === undefined) return
    this.#heads.delete(id)
    for (const key of contactKeys(head)) {
      const claims = this.#claims.get(key)
      claims?.delete(id)
      if (claims?.size === 0) this.#claims.delete(key)
    }
    if (head.nextDueAt !== null) this.#due.splice(this.#placeOf({ at: head.nextDueAt, id }), 1)
  }

  find(id: DocumentId): Head | null {
    return this.#heads.get(id) ?? null
  }

  list(kind?: DocumentKind): readonly Head[] {
    const heads = [...this.#heads.values()].filter((head) => kind === undefined || head.kind === kind)
    return heads.sort((a, b) => compareIds(a.id, b.id))
  }

  findByContact(contact: Contact): Head | null {
    const claims = [...(this.#claims.get(contactKey(contact)) ?? [])].map((id) => this.#known(id))
    claims.sort((a, b) => Number(placeByKind[a.kind]) - Number(placeByKind[b.kind]) || compareIds(a.id, b.id))
    return claims[0] ?? null
  }

  due(at: Instant): readonly Head[] {
    const end = this.#due.findIndex((due) => due.at > at)
    return this.#due.slice(0, end === -1 ? undefined : end).map((due) => this.#known(due.id))
  }

  nextDueAt(): Instant | null {
    return this.#due[0]?.at ?? null
  }

  #known(id: DocumentId): Head {
    const head = this.#heads.get(id)
    if (head === undefined) throw new Error('the head index names a document that it does not hold')
    return head
  }

  /** The first place whose due does not come before `due`. */
  #placeOf(due: Due): number {
    let low = 0
    let high = this.#due.length
    while (low < high) {
      const middle = (low + high) >>> 1
      const other = this.#due[middle] as Due
      if (other.at < due.at || (other.at === due.at && compareIds(other.id, due.id) < 0)) low = middle + 1
      else high = middle
    }
    return low
  }
}

function contactKeys(head: Head): readonly string[] {
  return placeByKind[head.kind] === null ? [] : head.contacts.map(contactKey)
}

function contactKey(contact: Contact): string {
  return JSON.stringify([contact.channel, contact.address])
}

/** By code units, the same on every machine; a locale's order is not. */
function compareIds(a: DocumentId, b: DocumentId): number {
  return a < b ? -1 : a > b ? 1 : 0
}

function freezeHead(head: Head): Head {
  for (const contact of head.contacts) Object.freeze(contact)
  Object.freeze(head.contacts)
  return Object.freeze(head)
}
