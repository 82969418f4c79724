/** Runs the tasks of one key one after another, those of different keys at once. */
export interface ChatQueue {
  run(key: string, task: () => Promise<void>): Promise<void>
}

export function createChatQueue(): ChatQueue {
  const tails = new Map<string, Promise<void>>()
  return {
    run(key, task) {
      const before = tails.get(key) ?? Promise.resolve()
      const done = before.then(task, task)
      tails.set(key, done)
      const forget = (): void => {
        if (tails.get(key) === done) tails.delete(key)
      }
      done.then(forget, forget)
      return done
    },
  }
}
