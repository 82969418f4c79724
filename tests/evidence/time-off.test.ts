// Sources: CSCCa and NSCA 2019 (two weeks or longer [found], cuts [memory:medium]); Mujika and Padilla 2001, Med Sci Sports
// Exerc 33(8):1297-1303 [found] https://www.scribd.com/document/133617290/ : strength readily kept for up to four weeks, what
// was recently gained may fall sooner. Spiering 2021, J Strength Cond Res 35(5):1449-1458 [found]
// https://ouci.dntb.gov.ua/en/works/4L3gYx37/ : one session a week at the same load holds strength.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { comparePlaces, type ChainPlace } from '#src/domain/chain.ts'
import { loadMagnitude, type Dose } from '#src/domain/dose.ts'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { afterAbsence, type AfterAbsence } from '#src/rules/absence.ts'
import { entryOfRung, locate, lowestOfRung, placeAt } from '#src/rules/moves.ts'
import { novice } from '#tests/support/sample-chain.ts'
import { anyPlace, seed, startAt } from './capable-client.ts'
import { countsFromDays, setsInWeekBack } from './published/return-after-layoff.ts'

const protocol = novice()
const settings = { seed, numRuns: 3000 }

function after(chain: Parameters<typeof afterAbsence>[0], place: ChainPlace, days: number): AfterAbsence {
  const state = { ...startAt(place), lastTrained: { on: brandAs<LocalDate>('2027-01-04'), place } }
  return afterAbsence(chain, state, days, protocol)
}

describe('the published weeks back', () => {
  it.each([
    [9, 1, 4],
    [9, 2, 6],
    [9, 3, 9],
    [12, 1, 6],
  ])('of %i sets leave in week %i no more than %i [calc]', (usual, week, sets) => {
    expect(setsInWeekBack(usual, week)).toBe(sets)
  })
})

describe('our dose after time off', () => {
  it('is lower from two weeks on, by a tenth at least, or the lowest of its rung (CSCCa and NSCA 2019)', () => {
    fc.assert(
      fc.property(anyPlace, fc.integer({ min: countsFromDays + 1, max: 400 }), ({ chain, place }, days) => {
        const index = after(chain, place, days).place
        const isLowest = index === lowestOfRung(chain, locate(chain, place))
        expect(isLowest || shareKept(placeAt(chain, index).dose, place.dose) <= 0.9 + 1e-9).toBe(true)
      }),
      settings,
    )
  })

  it('never rises with time off, and with more days is never higher', () => {
    fc.assert(
      fc.property(anyPlace, fc.nat(200), fc.nat(200), ({ chain, place }, days, more) => {
        const [fewer, longer] = [days, days + more].map((off) => placeAt(chain, after(chain, place, off).place))
        expect(comparePlaces(fewer as ChainPlace, place)).toBeLessThanOrEqual(0)
        expect(comparePlaces(longer as ChainPlace, fewer as ChainPlace)).toBeLessThanOrEqual(0)
      }),
      settings,
    )
  })

  it('goes down to the rung’s entry only after the four weeks for which strength is kept (Mujika and Padilla 2001)', () => {
    fc.assert(
      fc.property(anyPlace, ({ chain, place }) => {
        const entry = entryOfRung(chain, place.rung)
        const rules = [28, 29].map((days) => after(chain, place, days).reasons.map((reason) => reason.rule))
        expect(rules).toEqual([['absence-eased'], ['absence-reentry']])
        expect(after(chain, place, 29).place).toBeLessThanOrEqual(entry)
      }),
      settings,
    )
  })

  it('forgets sooner what was met only once: within two weeks (Mujika and Padilla 2001, recent gains)', () => {
    fc.assert(
      fc.property(anyPlace, fc.integer({ min: 8, max: 14 }), ({ chain, place }, days) => {
        const kept = placeAt(chain, after(chain, place, days).place)
        expect({ ...kept, isEntry: 0, needsApproval: 0, standing: 0 }).toEqual({ ...place, isEntry: 0, needsApproval: 0, standing: 0 })
        expect(kept.standing).not.toBe('again')
      }),
      settings,
    )
  })

  it('is kept whole by one session a week (Spiering 2021)', () => {
    fc.assert(
      fc.property(anyPlace, ({ chain, place }) => {
        expect(after(chain, place, 7)).toEqual({ place: locate(chain, place), reasons: [], isTold: false })
      }),
      settings,
    )
  })
})

/** The largest share of load, hold and repetitions that is left, the first that differs counting. */
function shareKept(lower: Dose, than: Dose): number {
  const [load, loadThan] = [loadMagnitude(lower.load), loadMagnitude(than.load)]
  if (load !== loadThan) return load / loadThan
  const [hold, holdThan] = [lower.holdSeconds ?? 1, than.holdSeconds ?? 1]
  return Math.min(hold / holdThan, lower.reps / than.reps)
}
