// Sources as in published/daily-adjustable-progression.ts: Knight 1979 and Knight 1985. The algorithm is checked on its own
// table first and then used as a judge: wherever it lowers or holds the load, our rules never raise the dose.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { comparePlaces, type Chain, type ChainPlace } from '#src/domain/chain.ts'
import { loadMagnitude } from '#src/domain/dose.ts'
import { standardGravity } from '#src/domain/units.ts'
import { anyLoadedPlace, chains, seed, startAt, trainOnce } from './capable-client.ts'
import {
  bandOf,
  bands,
  kilograms,
  pounds,
  readings,
  trainOnce as trainOnceAsPublished,
  versions,
  type Step,
} from './published/daily-adjustable-progression.ts'

describe('the published table', () => {
  it.each([
    [1979, [0, 2, 3, 4, 5, 6, 7, 10, 11, 20], [0, 0, 1, 1, 2, 2, 3, 3, 4, 4]],
    [1985, [0, 2, 3, 4, 5, 7, 8, 12, 13, 20], [0, 0, 1, 1, 2, 2, 3, 3, 4, 4]],
  ] as const)('of %i puts each number of repetitions into its band, both ends of each', (version, reps, expected) => {
    expect(reps.map((count) => bands.indexOf(bandOf(count, version)))).toEqual(expected)
  })

  it('prints a pound for half a kilogram throughout', () => {
    const half = ({ least, most }: Step): Step => ({ least: least / 2, most: most / 2 })
    const halved = Object.entries(pounds).map(([band, row]) => [band, { fourthSet: half(row.fourthSet), nextSession: half(row.nextSession) }])
    expect(Object.fromEntries(halved)).toEqual(kilograms)
  })

  // [calc]: six repetitions possible with 6 kg.
  it('starts from a six-repetition maximum of 6 kg with 3, 4.5 and 6 kg', () => {
    const { sets, nextWorkingKg } = trainOnceAsPublished({
      version: 1979, nextReads: 'fourth set', workingKg: 6, thirdReps: 6, fourthReps: 6, boldness: 0,
    })
    expect(sets).toEqual([
      { kilograms: 3, reps: 10 },
      { kilograms: 4.5, reps: 6 },
      { kilograms: 6, reps: 6 },
      { kilograms: 6, reps: 6 },
    ])
    expect(nextWorkingKg).toBe(8.5)
  })

  it.each([
    ['two in the third set lower the fourth; four in it keep that', 2, 4, 17.5, 17.5],
    ['eight in the third set raise the fourth; six in it raise the next', 8, 6, 22.5, 25],
    ['eleven in both raise by the largest step', 11, 11, 25, 30],
    ['three in the third may stay; one in the fourth lowers the next', 3, 1, 20, 17.5],
  ])('%s', (_, thirdReps, fourthReps, fourthKg, nextKg) => {
    const done = trainOnceAsPublished({ version: 1979, nextReads: 'fourth set', workingKg: 20, thirdReps, fourthReps, boldness: 0 })
    expect([done.sets[3].kilograms, done.nextWorkingKg]).toEqual([fourthKg, nextKg])
  })
})

describe('our rules beside it', () => {
  const anySets = fc.array(fc.integer({ min: 0, max: 25 }), { minLength: 3, maxLength: 3 })

  const anyWay = fc.record({
    version: fc.constantFrom(...versions),
    nextReads: fc.constantFrom(...readings),
    boldness: fc.double({ min: 0, max: 1, noNaN: true }),
  })

  it('never lead to a harder dose of a load where it lowers or holds the load, whichever version and set it is read off', () => {
    fc.assert(
      fc.property(anyLoadedPlace, anySets, anyWay, ({ chain, place }, mostBySet, way) => {
        const [, thirdReps = 0, fourthReps = 0] = mostBySet
        const published = trainOnceAsPublished({ ...way, workingKg: 100, thirdReps, fourthReps })
        const base = way.nextReads === 'fourth set' ? published.sets[3].kilograms : 100
        const after = trainOnce(chain, startAt(place), mostBySet)
        if (published.nextWorkingKg <= base) expect(comparePlaces(after.place, place)).toBeLessThanOrEqual(0)
      }),
      { seed, numRuns: 5000 },
    )
  })

  it('raise only where it raises too: at eight repetitions it does from five possible ones on, we from ten on', () => {
    const place = dynamicPlaces().find(({ place: { dose, standing } }) => dose.reps === 8 && standing === 'only')
    if (place === undefined) throw new Error('no chain has eight repetitions')
    const raised = Array.from({ length: 16 }, (_, most) => most).filter((most) => {
      const after = trainOnce(place.chain, startAt(place.place), [most, most, most])
      return comparePlaces(after.place, place.place) > 0
    })
    const published = Array.from({ length: 16 }, (_, most) => most).filter((most) =>
      versions.every((version) => kilograms[bandOf(most, version)].nextSession.least > 0))
    expect(published).toEqual([5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15])
    expect(raised).toEqual([10, 11, 12, 13, 14, 15])
  })

  // Five kilograms is out of scale for a neck, so this is the least that can be asked: of the steps that no therapist has to
  // approve none is larger than the smallest that the table gives for as many repetitions, in kilograms and therefore also
  // as a share of any working weight.
  it('never raise a load by more than its smallest step for the repetitions it took to get there', () => {
    const steps = chains.flatMap(({ chain }) => chain.places.flatMap((to, index) => stepTo(chain.places[index - 1], to)))
    const tooLarge = steps.filter(({ stepKg, most }) => versions.some((version) => stepKg > kilograms[bandOf(most, version)].nextSession.least))
    expect(steps.length).toBeGreaterThan(50)
    expect(tooLarge).toEqual([])
  })
})

function dynamicPlaces(): { readonly chain: Chain; readonly place: ChainPlace }[] {
  const isDynamic = ({ dose }: ChainPlace): boolean => dose.holdSeconds === null
  return chains.flatMap(({ chain }) => chain.places.filter(isDynamic).map((place) => ({ chain, place })))
}

/** The step in kilograms (a band's newtons as the weight that pulls as hard) and the repetitions possible before it. */
function stepTo(from: ChainPlace | undefined, to: ChainPlace): { readonly stepKg: number; readonly most: number }[] {
  const isStep = from !== undefined && from.rung === to.rung && to.dose.holdSeconds === null && !to.needsApproval
  if (!isStep || loadMagnitude(to.dose.load) === loadMagnitude(from.dose.load)) return []
  const step = loadMagnitude(to.dose.load) - loadMagnitude(from.dose.load)
  return [{ stepKg: to.dose.load.kind === 'force' ? step / standardGravity : step, most: from.dose.reps + 2 }]
}
