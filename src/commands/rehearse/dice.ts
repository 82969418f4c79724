import { uniformInt } from 'pure-rand/distribution/uniformInt'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'

/** Dice that fall alike for the same seed. */
export interface Dice {
  /** A whole number, both ends included. */
  roll(least: number, most: number): number
  /** True as often as that of 100. */
  chance(percent: number): boolean
}

export function createDice(seed: number): Dice {
  const random = xoroshiro128plus(seed)
  const roll = (least: number, most: number): number => uniformInt(random, least, most)
  return { roll, chance: (percent) => roll(1, 100) <= percent }
}
