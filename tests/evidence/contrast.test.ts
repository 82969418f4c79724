// Source as in published/contrast.ts: WCAG 2.x. Ratios [calc]; 8.59 for blue [found]
// https://livebook.manning.com/learn/concepts/contrast-ratio--metric/math-for-web-design . The ratio checked is the one that
// the tests of the page are made with.
import { describe, expect, it } from 'vitest'
import { contrastRatio } from '#tests/channels/browser/contrast.ts'
import { leastRatio, linear } from './published/contrast.ts'

type Rgb = readonly [number, number, number]

function rgb(hex: string): Rgb {
  return [0, 2, 4].map((start) => Number.parseInt(hex.slice(start, start + 2), 16)) as unknown as Rgb
}

describe('contrast on white', () => {
  it.each([
    ['000000', 21, true, true],
    ['767676', 4.5422, true, true],
    ['777777', 4.4781, false, true],
    ['949494', 3.0335, false, true],
    ['595959', 7.0047, true, true],
    ['FF0000', 3.9985, false, true],
    ['0000FF', 8.5925, true, true],
  ])('of %s is %d; enough for text %s, for a graphic %s', (hex, ratio, isTextReadable, isGraphicVisible) => {
    const measured = contrastRatio(rgb(hex), rgb('FFFFFF'))
    expect(measured).toBeCloseTo(ratio, 4)
    expect([measured >= leastRatio.text, measured >= leastRatio.graphic]).toEqual([isTextReadable, isGraphicVisible])
  })

  it('of green and red is 1.2848: such marks need a second cue', () => {
    expect(contrastRatio(rgb('008000'), rgb('FF0000'))).toBeCloseTo(1.2848, 4)
  })
})

describe('the two printed thresholds', () => {
  it('give the same for every value of eight bits', () => {
    const values = Array.from({ length: 256 }, (_, value) => value)
    expect(values.map((value) => linear(value, 0.03928))).toEqual(values.map((value) => linear(value)))
  })
})
