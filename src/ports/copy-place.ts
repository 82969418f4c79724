import type { Archive } from './archive.ts'

/** A store as what copies a whole clinic sees it. Every call rejects with a `StoreError` that says what to do. */
export interface CopyPlace {
  /** Beside whatever runs on it. */
  copyOut: Archive['copyOut']
  /** Takes the store, so that nobody changes it while `work` reads; rejects `locked` where a process runs on it. */
  whileHeld<T>(work: (source: Pick<Archive, 'copyOut'>) => Promise<T>): Promise<T>
  /**
   * Takes an empty store and lets `work` put copies in: all or nothing. Rejects where documents stand. Whatever `work`
   * rejects with leaves it empty again; a crash leaves what no start accepts, and what the next fill clears away.
   */
  fill<T>(work: (target: Archive) => Promise<T>): Promise<T>
}

/** The store went on changing for as long as it was looked at, so that no copy of one instant came about. */
export class RestlessStoreError extends Error {
  readonly code = 'restless'
  constructor(message: string) {
    super(message)
    this.name = 'RestlessStoreError'
  }
}
