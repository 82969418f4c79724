import { describe, expect, it } from 'vitest'
import type { Dose, Load } from '#src/domain/dose.ts'
import type { Work } from '#src/domain/exercise.ts'
import {
  adherenceOf,
  emptyWeek,
  noVolume,
  sessionLoad,
  tensionSeconds,
  volumeOf,
  withLoad,
  withSession,
  type SetDone,
  type TrainingWeek,
} from '#src/rules/training-record.ts'

const step = { reps: 5, holdSeconds: 5, push: null }
const holds: Work = { kind: 'holds', below: [], entry: step, above: [] }
const band: Work = { kind: 'repetitions', load: 'band', tempoSeconds: [3, 1, 2] }
const harness: Work = { kind: 'repetitions', load: 'harness', tempoSeconds: [4, 2] }
const plates: Load = { kind: 'mass', kilograms: 1.5, plates: [0.5] }
const pull: Load = { kind: 'force', newtons: 12.5, band: 'light', stretchCm: 20 }

function set(work: Work, reps: number, holdSeconds: number | null, load: Load, isFinished = true): SetDone {
  const dose: Dose = { sets: 3, reps, holdSeconds, load }
  return { ladder: 'extension', dose, work, isFinished }
}

describe('one set', () => {
  it.each([
    ['without a load counts repetitions', set(holds, 5, 5, { kind: 'none' }), { ...noVolume, repetitions: 5 }, 25],
    ['against a push counts repetitions, not the push', set(holds, 6, 10, { kind: 'push', effort: 5 }), { ...noVolume, repetitions: 6 }, 60],
    ['with plates counts kilograms', set(harness, 8, null, plates), { ...noVolume, kilogramRepetitions: 12 }, 48],
    ['with a band counts newtons', set(band, 12, null, pull), { ...noVolume, newtonRepetitions: 150 }, 72],
    ['that was not finished counts nothing that is not known', set(harness, 8, null, plates, false), noVolume, 0],
  ])('%s', (_, done, volume, seconds) => {
    expect({ volume: volumeOf(done), seconds: tensionSeconds(done) }).toEqual({ volume, seconds })
  })
})

describe('session load', () => {
  it.each([
    [4, 30, 120],
    [0, 30, 0],
    [10, 120, 1200],
    [10, 121, null],
    [null, 30, null],
  ])('of effort %j over %j minutes is %j', (effort, minutes, load) => {
    expect(sessionLoad(effort, minutes)).toBe(load)
  })
})

describe('adherence', () => {
  it.each([
    [0, 0, null, 0],
    [2, 0, null, 2],
    [0, 3, 0, 0],
    [3, 3, 1, 0],
    [4, 3, 1, 1],
  ])('%j done of %j is %j, and %j beyond', (done, prescribed, share, excess) => {
    expect(adherenceOf(done, prescribed)).toEqual({ share, excess })
  })
})

describe('a week', () => {
  const side: SetDone = { ...set(band, 10, null, pull), ladder: 'rotation' }
  const first = (): TrainingWeek => withSession(emptyWeek('2026-W48'), [set(holds, 5, 5, { kind: 'none' }), side, side])

  it('sums its sessions, each ladder and each unit apart', () => {
    const second = withSession(first(), [set(harness, 8, null, plates), set(holds, 6, 5, { kind: 'none' }), { ...side, isFinished: false }])
    expect(second).toEqual({
      week: '2026-W48',
      prescribed: 0,
      done: 2,
      sets: 6,
      tensionSeconds: 25 + 60 + 60 + 48 + 30,
      effortMinutes: 0,
      rated: 0,
      volumes: {
        extension: { repetitions: 11, kilogramRepetitions: 12, newtonRepetitions: 0 },
        rotation: { repetitions: 0, kilogramRepetitions: 0, newtonRepetitions: 250 },
      },
    })
  })

  it('keeps how many of its sessions have a load, a load of nothing included', () => {
    const rated = [120, 0].reduce(withLoad, first())
    expect(rated).toEqual({ ...first(), effortMinutes: 120, rated: 2 })
  })
})
