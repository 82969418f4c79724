import { describe, expect, it } from 'vitest'
import type { Measure, MeasureSource } from '#src/domain/measure.ts'
import { judgeChange } from '#src/rules/change-verdict.ts'

function source(id: string, limits: Partial<Record<'detectable' | 'standardError' | 'important' | 'importantPercent', number>>): MeasureSource {
  const figure = (value: number | undefined) => (value === undefined ? null : { value, certainty: 'found' as const })
  return {
    id,
    citation: id,
    population: 'neck-pain',
    detectable: figure(limits.detectable),
    standardError: figure(limits.standardError),
    important: figure(limits.important),
    importantPercent: figure(limits.importantPercent),
  }
}

function measure(better: Measure['better'], ...sources: readonly MeasureSource[]): Measure {
  return { id: 'pain', least: 0, most: 10, better, sources }
}

const two = measure('lower', source('low', { detectable: 2.1, important: 1.3 }), source('high', { detectable: 4.1, important: 2.2 }))

describe('a change against two sources that disagree', () => {
  it.each([
    ['below the lower error', 5, 2.95, 'no', 'some'],
    ['at the lower error', 5, 2.9, 'some', 'some'],
    ['below the higher error', 5, 0.95, 'some', 'every'],
    ['at the higher error', 5, 0.9, 'every', 'every'],
    ['below the lower importance', 5, 3.71, 'no', 'no'],
    ['at the lower importance', 5, 3.7, 'no', 'some'],
    ['below the higher importance', 5, 2.81, 'some', 'some'],
    ['at the higher importance', 5, 2.8, 'some', 'every'],
  ])('%s', (_, first, last, error, importance) => {
    const verdict = judgeChange(two, first, last)
    expect({ trend: verdict.trend, error: verdict.error, importance: verdict.importance }).toEqual({ trend: 'better', error, importance })
  })

  it('names every criterion with its limit', () => {
    expect(judgeChange(two, 6, 4)).toEqual({
      points: -2,
      percent: -33.333333333,
      trend: 'better',
      error: 'no',
      importance: 'some',
      criteria: [
        { source: 'low', population: 'neck-pain', kind: 'detectable', limit: 2.1, isMet: false },
        { source: 'low', population: 'neck-pain', kind: 'important', limit: 1.3, isMet: true },
        { source: 'high', population: 'neck-pain', kind: 'detectable', limit: 4.1, isMet: false },
        { source: 'high', population: 'neck-pain', kind: 'important', limit: 2.2, isMet: false },
      ],
    })
  })
})

describe('a source that says nothing of what matters', () => {
  it('gives no criterion of it for a change to the better', () => {
    const { criteria, importance } = judgeChange(measure('lower', source('low', { detectable: 2.1 })), 6, 3)
    expect({ criteria, importance }).toEqual({
      criteria: [{ source: 'low', population: 'neck-pain', kind: 'detectable', limit: 2.1, isMet: true }],
      importance: null,
    })
  })
})

describe('a change smaller than a computer can count', () => {
  it('is none, and has no sign', () => {
    const { points, percent, trend } = judgeChange(two, 0.1 + 0.2, 0.3)
    expect({ points, percent, trend }).toStrictEqual({ points: 0, percent: 0, trend: 'same' })
  })
})

describe('the trend', () => {
  it.each([
    ['lower', 3, 2, 'better'],
    ['lower', 2, 3, 'worse'],
    ['higher', 2, 3, 'better'],
    ['higher', 3, 2, 'worse'],
    ['lower', 3, 3, 'same'],
  ] as const)('where %s is better, from %d to %d is %s', (better, first, last, trend) => {
    expect(judgeChange(measure(better, source('one', { detectable: 1 })), first, last).trend).toBe(trend)
  })

  it('to the worse is compared with the error, and never called important', () => {
    const verdict = judgeChange(two, 1, 9)
    expect({ error: verdict.error, importance: verdict.importance }).toEqual({ error: 'every', importance: null })
    expect(verdict.criteria.map(({ kind }) => kind)).toEqual(['detectable', 'detectable'])
  })
})

describe('a per cent', () => {
  const percent = measure('lower', source('one', { important: 2, importantPercent: 30 }))

  it.each([
    ['agrees with points', 6, 4, -33.333333333, 'every'],
    ['may be met where points are not', 3, 2, -33.333333333, 'some'],
    ['may be missed where points are met', 8, 6, -25, 'some'],
    ['is met at the limit', 10, 7, -30, 'every'],
    ['is missed below it', 10, 7.1, -29, 'some'],
  ])('%s', (_, first, last, expected, importance) => {
    const verdict = judgeChange(percent, first, last)
    expect({ percent: verdict.percent, importance: verdict.importance }).toEqual({ percent: expected, importance })
  })

  it('of a first value of 0 is undefined and judged by nobody', () => {
    const higher = measure('higher', source('one', { important: 2, importantPercent: 30 }))
    expect(judgeChange(higher, 0, 2)).toMatchObject({ points: 2, percent: null, criteria: [{ kind: 'important', isMet: true }] })
  })
})

describe('a source with a standard error', () => {
  const one = measure('lower', source('one', { detectable: 2.5, standardError: 1 }))

  it.each([
    ['below the detectable change it prints', 2.4, 'no'],
    ['between that and the reliable change', 2.7, 'some'],
    ['above both', 2.8, 'every'],
  ])('%s', (_, change, error) => {
    expect(judgeChange(one, 5, 5 - change).error).toBe(error)
  })
})

it('without any source for the error, no verdict is given', () => {
  const verdict = judgeChange(measure('higher', source('one', { important: 1 })), 0, 7)
  expect({ error: verdict.error, importance: verdict.importance }).toEqual({ error: null, importance: 'every' })
})

it('no change is larger than no error, and is not minus nought', () => {
  expect(judgeChange(two, 2, 2)).toMatchObject({ points: 0, percent: 0, trend: 'same', error: 'no', importance: null })
  expect(Object.is(judgeChange(two, 2, 2).points, 0)).toBe(true)
})
