/** How many handled ids are kept, so that a server that repeats itself changes nothing. */
const remembered = 1000

/** Which updates are under way or handled, and from which one on the server must keep them. */
export interface UpdateLedger {
  /** False if the update is known already. */
  take(updateId: number): boolean
  finish(updateId: number): void
  /** Committed or parked, as far back as is remembered. */
  isFinished(updateId: number): boolean
  /** The lowest unfinished update, or one past the last; undefined before the first. */
  offset(): number | undefined
}

export function createUpdateLedger(): UpdateLedger {
  // In the order of arrival, which is not that of size: ids restart at random after an idle week
  // (https://core.telegram.org/bots/api#update).
  const finishedById = new Map<number, boolean>()
  let lastId: number | undefined

  function forgetOldest(): void {
    for (const [id, finished] of finishedById) {
      if (!finished || finishedById.size <= remembered) return
      finishedById.delete(id)
    }
  }

  return {
    take(updateId) {
      if (finishedById.has(updateId)) return false
      finishedById.set(updateId, false)
      lastId = updateId
      return true
    },
    finish(updateId) {
      finishedById.set(updateId, true)
      forgetOldest()
    },
    isFinished: (updateId) => finishedById.get(updateId) === true,
    offset() {
      for (const [id, finished] of finishedById) if (!finished) return id
      return lastId === undefined ? undefined : lastId + 1
    },
  }
}
