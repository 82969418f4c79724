import { describe, expect, it } from 'vitest'
import { retryDelayMs } from '#src/delivery/retry-delay.ts'

// Our choice; the minute for alerts is the project's own bound on trying an alert again.
describe('the delay before the next try', () => {
  it.each([
    { failures: 1, reply: 1000, alert: 1000 },
    { failures: 2, reply: 2000, alert: 2000 },
    { failures: 6, reply: 32_000, alert: 32_000 },
    { failures: 7, reply: 64_000, alert: 60_000 },
    { failures: 9, reply: 256_000, alert: 60_000 },
    { failures: 10, reply: 300_000, alert: 60_000 },
    { failures: 5000, reply: 300_000, alert: 60_000 },
  ])('is $reply ms after $failures failures, for an alert $alert ms', ({ failures, reply, alert }) => {
    const delays = (['reply', 'reminder', 'alert'] as const).map((urgency) => retryDelayMs(failures, urgency))
    expect(delays).toEqual([reply, reply, alert])
  })
})
