import { describe, expect, it } from 'vitest'
import { createSingleFlight } from '#src/channels/browser/single-flight.ts'

describe('a single flight', () => {
  it('runs once more, and only once, for everything asked meanwhile, and begins that run after the last asking', async () => {
    const ends: (() => void)[] = []
    let wanted = 0
    const seen: number[] = []
    const flight = createSingleFlight(() => {
      seen.push(wanted)
      return new Promise((resolve) => ends.push(resolve))
    })
    const ask = () => {
      wanted += 1
      flight.ask()
    }

    ask()
    ask()
    ask()
    expect(seen).toEqual([1])
    ends.shift()!()
    await Promise.resolve()
    expect(seen).toEqual([1, 3])
    ends.shift()!()
    await flight.settled()
    ask()
    expect(seen).toEqual([1, 3, 4])
    ends.shift()!()
    await flight.settled()
  })
})
