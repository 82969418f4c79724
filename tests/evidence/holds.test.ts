// Sources: Lum and Barbosa 2019 [memory:medium]; Rohmert 1960 [memory:medium] with Frey Law 2010 [found]; Jull 2008 [found];
// 10 × 10 s for the deep neck flexors [memory:high]. None was measured in neck rehabilitation at home: the bounds are wide.
import { describe, expect, it } from 'vitest'
import type { Exercise } from '#src/domain/exercise.ts'
import { content, novice } from '#tests/support/sample-chain.ts'
import { activationScore, cumulativeIndex, highestStageIndex } from './published/craniocervical-index.ts'
import { enduranceSeconds } from './published/endurance-time.ts'
import { advised } from './published/isometric-dose.ts'

interface Hold {
  readonly exercise: string
  readonly holdSeconds: number
  readonly totalSeconds: number
  readonly isEntry: boolean
}

const protocol = novice()

function holdsOf({ id, ladder, work }: Exercise): readonly Hold[] {
  if (work.kind !== 'holds') return []
  return [...work.below, work.entry, ...work.above].map((step) => ({
    exercise: id,
    holdSeconds: step.holdSeconds,
    totalSeconds: protocol.sets[ladder] * step.reps * step.holdSeconds,
    isEntry: step === work.entry,
  }))
}

const prescribed = [...content.ladders.values()].flatMap((ladder) => ladder.rungs.flatMap((rung) => rung.exercises)).flatMap((id) => {
  const exercise = content.exercises.get(id)
  return exercise === undefined ? [] : [exercise]
})
const holds = prescribed.flatMap(holdsOf)

describe('the time held (Lum and Barbosa 2019)', () => {
  it('in one repetition lies within the advised 1 to 30 s', () => {
    const [shortest] = advised.strength.holdSeconds
    const [, longest] = advised.size.holdSeconds
    expect(holds.filter(({ holdSeconds }) => holdSeconds < shortest || holdSeconds > longest)).toEqual([])
  })

  it('in one session never exceeds the 150 s advised for size', () => {
    expect(holds.filter(({ totalSeconds }) => totalSeconds > advised.size.totalSeconds[1])).toEqual([])
  })

  it('at the entry of a self-resisted hold lies within the 30 to 90 s and the 1 to 5 s advised for strength', () => {
    const seated = prescribed.filter(({ work }) => work.kind === 'holds' && work.entry.push !== null)
    const entries = seated.flatMap(holdsOf).filter(({ isEntry }) => isEntry)
    const [from, to] = advised.strength.totalSeconds
    expect(entries.length).toBeGreaterThan(1)
    expect(entries.filter(({ holdSeconds, totalSeconds }) => totalSeconds < from || totalSeconds > to || holdSeconds > 5)).toEqual([])
  })
})

describe('the general endurance curve (Rohmert 1960), a guide and no gate', () => {
  it.each([
    [0.2, 390.0],
    [0.3, 152.2],
    [0.4, 93.8],
    [0.5, 66.0],
    [0.6, 47.8],
    [0.7, 34.0],
    [0.8, 23.0],
    [0.9, 13.8],
    [1.0, 6.0],
  ])('at %d of the maximum is %d s', (fraction, seconds) => {
    expect(enduranceSeconds(fraction)).toBeCloseTo(seconds, 1)
  })

  it('falls all the way', () => {
    const seconds = Array.from({ length: 86 }, (_, index) => enduranceSeconds((15 + index) / 100))
    expect(seconds).toEqual(seconds.toSorted((a, b) => b - a))
  })

  it('leaves room above our longest hold even at nine tenths of the maximum', () => {
    expect(Math.max(...holds.map(({ holdSeconds }) => holdSeconds))).toBeLessThan(enduranceSeconds(0.9))
  })
})

describe('the cranio-cervical flexion test (Jull 2008)', () => {
  it.each([
    [[10, 10, 10, 10, 10], 300, 10, 100],
    [[10, 10, 6, 0, 0], 96, 6, 36],
    [[0, 0, 0, 0, 0], 0, 0, 0],
    [[12, 0, 0, 0, 0], 20, 2, 20],
  ])('with good holds %j has cumulative index %i, score %i and highest-stage index %i', (good, cumulative, score, highest) => {
    expect([cumulativeIndex(good), activationScore(good), highestStageIndex(good)]).toEqual([cumulative, score, highest])
  })
})

describe('the deep flexors’ ladder ([memory:high]: 10 × 10 s at low load)', () => {
  const lifted = (content.ladders.get('deep-flexors')?.rungs ?? []).flatMap((rung) => rung.exercises).flatMap((id) => {
    const work = content.exercises.get(id)?.work
    return work?.kind === 'holds' ? [[work.entry, ...work.above].map(({ reps, holdSeconds, push }) => ({ reps, holdSeconds, push }))] : []
  })

  it('has no more than ten holds of ten seconds in a session, on any rung', () => {
    const sets = protocol.sets['deep-flexors']
    expect(lifted.length).toBeGreaterThan(0)
    expect(lifted.flat().filter(({ reps, holdSeconds }) => holdSeconds > 10 || sets * reps > 10)).toEqual([])
  })

  it('reaches ten holds of ten seconds on its first rung', () => {
    const top = lifted[0]?.at(-1)
    expect([protocol.sets['deep-flexors'] * (top?.reps ?? 0), top?.holdSeconds]).toEqual([10, 10])
  })

  it('stays at low load: no push above moderate', () => {
    expect(lifted.flat().filter(({ push }) => push !== null && push > 3)).toEqual([])
  })
})
