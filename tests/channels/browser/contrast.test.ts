import { describe, expect, it } from 'vitest'
import { contrastRatio } from './contrast.ts'

describe('the contrast ratio', () => {
  it('is 21:1 for black on white and 1:1 for a colour on itself (WCAG 2.2, "contrast ratio")', () => {
    expect(contrastRatio([0, 0, 0], [255, 255, 255])).toBeCloseTo(21, 10)
    expect(contrastRatio([29, 92, 99], [29, 92, 99])).toBe(1)
  })

  it('parts #767676 from #777777 on white at 4.5:1 (W3C technique G18; the two greys from memory)', () => {
    expect(contrastRatio([0x76, 0x76, 0x76], [255, 255, 255])).toBeCloseTo(4.54, 2)
    expect(contrastRatio([0x77, 0x77, 0x77], [255, 255, 255])).toBeCloseTo(4.48, 2)
  })
})
