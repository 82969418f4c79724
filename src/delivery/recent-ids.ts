/** Remembers the last `size` ids; beyond that the oldest is forgotten. */
export class RecentIds<Id extends string> {
  readonly #ids = new Set<Id>()
  readonly #size: number

  constructor(size: number) {
    this.#size = size
  }

  has(id: Id): boolean {
    return this.#ids.has(id)
  }

  add(id: Id): void {
    this.#ids.add(id)
    const [oldest] = this.#ids
    if (this.#ids.size > this.#size && oldest !== undefined) this.#ids.delete(oldest)
  }
}
