/** Work on one key runs one at a time in call order; different keys run side by side. */
export interface DocumentQueues<K> {
  run<T>(key: K, work: () => Promise<T>): Promise<T>
  /** Resolves when nothing is left to run. */
  drain(): Promise<void>
}

export function createDocumentQueues<K>(): DocumentQueues<K> {
  const tails = new Map<K, Promise<void>>()
  return {
    run(key, work) {
      const turn = (tails.get(key) ?? Promise.resolve()).then(work)
      // A tail never rejects: one failed turn must not fail those behind it.
      const ended = turn.then(ignore, ignore).then(() => {
        if (tails.get(key) === ended) tails.delete(key)
      })
      tails.set(key, ended)
      return turn
    },
    async drain() {
      while (tails.size > 0) await Promise.all(tails.values())
    },
  }
}

function ignore(): void {}
