// Sources as in published/delorme-oxford.ts: DeLorme 1948 and Zinovieff 1951 [memory:high]. Worked values [calc].
import { describe, expect, it } from 'vitest'
import { delorme, oxford } from './published/delorme-oxford.ts'

describe('three sets of ten', () => {
  it('rise or fall by quarters of the ten-repetition maximum: 8 kg gives 4, 6 and 8 kg, and the reverse', () => {
    expect([delorme(8), oxford(8)]).toEqual([[4, 6, 8], [8, 6, 4]])
  })
})
