// The target of 45 % is our choice; warm-up and start at 20 % are common practice, no source.
import { describe, expect, it } from 'vitest'
import type { Equipment } from '#src/domain/plan.ts'
import { loadTable } from '#src/rules/load-table.ts'
import type { LoadQuestion } from '#src/rules/working-load.ts'
import { novice } from '../support/sample-chain.ts'
import { assumed, headless, maximumOf } from './load-facts.ts'

const equipment: Equipment = {
  platesKg: [],
  harnessKg: 0.4,
  bands: [{ id: 'light', points: [{ stretchCm: 10, forceN: 8 }, { stretchCm: 60, forceN: 33 }] }],
  hasSupport: true,
  stepCm: null,
}
const question: LoadQuestion = { ladder: 'extension', tool: 'band', posture: null, protocol: novice(), maximum: maximumOf(60), assumptions: headless }

describe('the loads of a band', () => {
  it('are newtons, and the longest stretch owned that is not above them', () => {
    // 20 % of 60 N is 12 N, 45 % is 27 N; half a newton a centimetre from 8 N on.
    const at12N = { kind: 'force', newtons: 12, band: 'light', stretchCm: 18 }
    expect(loadTable(question, equipment)).toEqual({
      headShareOfMaximum: 0,
      rows: [
        { purpose: 'warmUp', share: 0.2, external: expect.closeTo(12, 9), owned: at12N },
        { purpose: 'start', share: 0.2, external: expect.closeTo(12, 9), owned: at12N },
        { purpose: 'target', share: 0.45, external: expect.closeTo(27, 9), owned: { kind: 'force', newtons: 27, band: 'light', stretchCm: 48 } },
      ],
    })
  })
})

describe('a head that is the target share to the last bit', () => {
  it('leaves no load at all', () => {
    // A head of 2 kg lying flat at one metre, and a maximum of twice its moment under a target of half.
    const assumptions = { ...assumed, bodyKg: 40, headShare: 0.05, headLeverCm: 100 }
    const momentNm = 4 * 9.80665
    const protocol = novice()
    const half = { ...protocol, working: { ...protocol.working, extension: { warmUp: 0.2, target: 0.5 } }, maximum: { ...protocol.maximum, ceiling: 0.5 } }
    const table = loadTable({ ...question, posture: { headTiltDegrees: 90 }, assumptions, protocol: half, maximum: { forceN: 100, momentNm } }, equipment)
    expect(table).toEqual({
      headShareOfMaximum: 0.5,
      rows: [
        { purpose: 'warmUp', share: 0.2, external: null, owned: null },
        { purpose: 'start', share: 0.2, external: null, owned: null },
        { purpose: 'target', share: 0.5, external: null, owned: null },
      ],
    })
  })
})
