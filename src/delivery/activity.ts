/** Counts the work under way, so that somebody can wait until there is none. */
export class Activity {
  #running = 0
  #waiters: (() => void)[] = []

  async run<T>(work: () => Promise<T>): Promise<T> {
    this.#running += 1
    try {
      return await work()
    } finally {
      this.#end()
    }
  }

  /** Inside {@link run}: a pause before the next try is no work. */
  async rest(pause: () => Promise<void>): Promise<void> {
    this.#end()
    try {
      await pause()
    } finally {
      this.#running += 1
    }
  }

  idle(): Promise<void> {
    if (this.#running === 0) return Promise.resolve()
    return new Promise((resolve) => this.#waiters.push(resolve))
  }

  #end(): void {
    this.#running -= 1
    if (this.#running > 0) return
    const waiters = this.#waiters
    this.#waiters = []
    for (const resolve of waiters) resolve()
  }
}
