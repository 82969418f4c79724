import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { waitAtMost, waitFor } from '#src/channels/telegram/wait-for.ts'

beforeEach(() => {
  vi.useFakeTimers()
})
afterEach(() => {
  vi.useRealTimers()
})

/** What has ended, and when, in the order in which it ended. */
function watch() {
  const ended: [string, number][] = []
  const startedAt = Date.now()
  return {
    ended,
    add: (name: string, work: Promise<void>) => void work.then(() => ended.push([name, Date.now() - startedAt])),
  }
}

describe('waiting', () => {
  it('ends after its time, at the abort, or at once when aborted before, and leaves no timer', async () => {
    const abort = new AbortController()
    const watched = watch()
    watched.add('whole', waitFor(1_000))
    watched.add('cut short', waitFor(5_000, abort.signal))
    await vi.advanceTimersByTimeAsync(2_000)
    abort.abort()
    watched.add('never begun', waitFor(5_000, abort.signal))
    await vi.advanceTimersByTimeAsync(0)
    expect(watched.ended).toEqual([
      ['whole', 1_000],
      ['cut short', 2_000],
      ['never begun', 2_000],
    ])
    expect(vi.getTimerCount()).toBe(0)
  })

  it('ends with the work, with its time or at the abort, whichever is first', async () => {
    const abort = new AbortController()
    const never = new Promise<void>(() => {})
    const watched = watch()
    watched.add('work', waitAtMost(900, waitFor(100), waitFor, abort.signal))
    const broken = waitFor(200).then(() => Promise.reject(new Error('broken')))
    watched.add('failed work', waitAtMost(900, broken, waitFor, abort.signal))
    watched.add('time', waitAtMost(300, never, waitFor, abort.signal))
    watched.add('abort', waitAtMost(900, never, waitFor, abort.signal))
    await vi.advanceTimersByTimeAsync(400)
    abort.abort()
    watched.add('too late', waitAtMost(900, never, waitFor, abort.signal))
    await vi.advanceTimersByTimeAsync(0)
    expect(watched.ended).toEqual([
      ['work', 100],
      ['failed work', 200],
      ['time', 300],
      ['abort', 400],
      ['too late', 400],
    ])
    expect(vi.getTimerCount()).toBe(0)
  })
})
