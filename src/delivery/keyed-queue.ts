/** Work on one key runs one at a time in call order; different keys run side by side. */
export class KeyedQueue {
  readonly #tails = new Map<string, Promise<void>>()

  run<T>(key: string, work: () => Promise<T>): Promise<T> {
    const turn = (this.#tails.get(key) ?? Promise.resolve()).then(work)
    // A tail never rejects: one failed turn must not fail those behind it.
    const tail: Promise<void> = turn.then(ignore, ignore).then(() => {
      if (this.#tails.get(key) === tail) this.#tails.delete(key)
    })
    this.#tails.set(key, tail)
    return turn
  }
}

function ignore(): void {}
