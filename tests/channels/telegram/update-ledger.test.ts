import { describe, expect, it } from 'vitest'
import { createUpdateLedger } from '#src/channels/telegram/update-ledger.ts'

describe('the ledger of updates', () => {
  it('stands at the lowest unfinished update, then one past the last', () => {
    const ledger = createUpdateLedger()
    const stands = [ledger.offset()]
    for (const id of [10, 11, 12]) ledger.take(id)
    for (const id of [11, 10, 12]) {
      stands.push(ledger.offset())
      ledger.finish(id)
    }
    stands.push(ledger.offset())
    expect(stands).toEqual([undefined, 10, 10, 12, 13])
  })

  it('takes each update once, also when it is finished', () => {
    const ledger = createUpdateLedger()
    const taken = [ledger.take(10), ledger.take(10)]
    ledger.finish(10)
    expect([...taken, ledger.take(10)]).toEqual([true, false, false])
  })

  it('goes on from a lower id when the ids start anew', () => {
    const ledger = createUpdateLedger()
    for (const id of [900, 40]) {
      ledger.take(id)
      ledger.finish(id)
    }
    expect(ledger.offset()).toBe(41)
  })

  it('forgets the oldest finished ones beyond a thousand, and none behind an unfinished one', () => {
    const ledger = createUpdateLedger()
    for (let id = 1; id <= 1_500; id += 1) ledger.take(id)
    for (let id = 2; id <= 1_500; id += 1) ledger.finish(id)
    const isNewBehindUnfinished = ledger.take(2)
    ledger.finish(1)
    expect([isNewBehindUnfinished, ledger.take(500), ledger.take(501)]).toEqual([false, true, false])
  })
})
