import { describe, expect, it } from 'vitest'
import { Activity } from '#src/delivery/activity.ts'
import { KeyedQueue } from '#src/delivery/keyed-queue.ts'
import { RecentIds } from '#src/delivery/recent-ids.ts'
import { Gate } from '#tests/support/gate.ts'
import { flush } from '#tests/support/manual-clock.ts'

describe('the queue by key', () => {
  it('runs one key in call order and another beside it', async () => {
    const queue = new KeyedQueue()
    const gate = new Gate()
    const order: string[] = []
    const first = queue.run('a', async () => {
      await gate.opened
      order.push('a1')
    })
    const second = queue.run('a', async () => void order.push('a2'))
    await queue.run('b', async () => void order.push('b1'))
    gate.open()
    await Promise.all([first, second])
    expect(order).toEqual(['b1', 'a1', 'a2'])
  })

  it('goes on behind work that failed, and hands the failure to its caller only', async () => {
    const queue = new KeyedQueue()
    const failed = queue.run('a', () => Promise.reject(new RangeError('no')))
    const next = queue.run('a', async () => 'done')
    const results = await Promise.allSettled([failed, next])
    expect(results.map(({ status }) => status)).toEqual(['rejected', 'fulfilled'])
  })
})

describe('the count of work under way', () => {
  it('is idle when the last work ends, and while work only waits for its next try', async () => {
    const activity = new Activity()
    const [work, pause] = [new Gate(), new Gate()]
    const seen: string[] = []
    const done = activity.run(async () => {
      await work.opened
      await activity.rest(() => pause.opened)
      seen.push('done')
    })
    void activity.idle().then(() => seen.push('idle'))
    await flush()
    seen.push('working')
    work.open()
    await flush()
    pause.open()
    await done
    await activity.idle()
    expect(seen).toEqual(['working', 'idle', 'done'])
  })
})

describe('the ids remembered', () => {
  it('are the newest', () => {
    const ids = new RecentIds<string>(2)
    for (const id of ['a', 'b', 'a', 'c']) ids.add(id)
    expect(['a', 'b', 'c'].map((id) => ids.has(id))).toEqual([false, true, true])
  })
})
