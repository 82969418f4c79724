// What is rolled for a client must not depend on when they are asked, so that a run with kills gives the same answers as
// one without.
import { createHash } from 'node:crypto'

/** A number from 0 up to but not including 1, the same for the same words. */
export function chanceOf(...words: readonly (string | number)[]): number {
  return createHash('sha256').update(words.join('\n')).digest().readUInt32BE(0) / 2 ** 32
}

export function pick<T>(items: readonly T[], chance: number): T {
  const item = items[Math.floor(chance * items.length)]
  if (item === undefined) throw new RangeError('nothing to pick from')
  return item
}
