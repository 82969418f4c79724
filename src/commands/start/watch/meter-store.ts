import type { Store } from '#src/ports/store.ts'
import type { Meters } from './meters.ts'

/** The same store, with the time of each commit and each failure counted; `nowMs` runs evenly and may begin anywhere. */
export function meterStore(store: Store, { commits, failedCommits }: Pick<Meters, 'commits' | 'failedCommits'>, nowMs: () => number): Store {
  const apply: Store['apply'] = async (...args) => {
    const began = nowMs()
    try {
      const result = await store.apply(...args)
      if (result.applied) commits.observe((nowMs() - began) / 1000)
      return result
    } catch (error) {
      failedCommits.inc()
      throw error
    }
  }
  // A proxy, so that whatever else a store can do stays as it is.
  return new Proxy(store, {
    get(target, key) {
      const member: unknown = key === 'apply' ? apply : Reflect.get(target, key)
      return typeof member === 'function' ? (member.bind(target) as unknown) : member
    },
  })
}
