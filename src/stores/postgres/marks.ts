import type { DocumentId, EffectId } from '#src/domain/identifier.ts'
import type { Delivery } from '#src/ports/store.ts'
import { rememberedRefs } from '../envelope.ts'

/** What became of one effect, as far as it is not yet written. */
export interface Mark {
  readonly effect: EffectId
  readonly isOver: boolean
  readonly ref: string | null
  readonly tries: number
}

/** The marks of each document that are not yet written, oldest first; nothing is ever marked as over twice. */
export class Marks {
  readonly #marks = new Map<DocumentId, Map<EffectId, Mark>>()

  get documents(): readonly DocumentId[] {
    return [...this.#marks.keys()].sort()
  }

  of(document: DocumentId): readonly Mark[] {
    return [...(this.#marks.get(document)?.values() ?? [])]
  }

  find(document: DocumentId, effect: EffectId): Mark | null {
    return this.#marks.get(document)?.get(effect) ?? null
  }

  add(document: DocumentId, effect: EffectId, delivery: Delivery): void {
    const known = this.find(document, effect) ?? { effect, isOver: false, ref: null, tries: 0 }
    if (known.isOver) return
    this.#put(document, after[delivery.kind](known, delivery))
  }

  /** Takes them out to be written. */
  take(document: DocumentId): readonly Mark[] {
    const taken = this.of(document)
    this.#marks.delete(document)
    return taken
  }

  /** They could not be written: as before, under those that came meanwhile. */
  putBack(document: DocumentId, marks: readonly Mark[]): void {
    const newer = this.take(document)
    for (const mark of marks) this.#put(document, mark)
    for (const mark of newer) {
      const older = this.find(document, mark.effect)
      if (older === null) this.#put(document, mark)
      else if (!older.isOver) this.#put(document, { ...mark, tries: older.tries + mark.tries })
    }
  }

  forget(document: DocumentId): void {
    this.#marks.delete(document)
  }

  #put(document: DocumentId, mark: Mark): void {
    const marks = this.#marks.get(document) ?? new Map<EffectId, Mark>()
    this.#marks.set(document, marks.set(mark.effect, mark))
  }
}

const after: { readonly [Kind in Delivery['kind']]: (mark: Mark, delivery: Delivery) => Mark } = {
  delivered: (mark, delivery) => ({ ...mark, isOver: true, ref: delivery.kind === 'delivered' ? delivery.ref : null }),
  abandoned: (mark) => ({ ...mark, isOver: true }),
  tried: (mark) => ({ ...mark, tries: mark.tries + 1 }),
}

/** As many as are remembered at all. */
export function refsOf(marks: readonly Mark[]): readonly { readonly effect: EffectId; readonly ref: string }[] {
  return marks.flatMap(({ effect, ref }) => (ref === null ? [] : [{ effect, ref }])).slice(-rememberedRefs)
}
