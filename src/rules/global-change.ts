// Decides: how large a change is that a client reports of themselves, from 7 worse to 7 better.
// Source: Jaeschke R 1989, Control Clin Trials 10:407-415: 0 none, 1-3 small, 4-5 moderate, 6-7 large. From which value on
// a trial calls somebody improved differs between trials, so nothing is said about that. Reviewed 2026-11.

export const mostGlobalChange = 7

export const changeSizes = ['none', 'small', 'moderate', 'large'] as const
export type ChangeSize = (typeof changeSizes)[number]

const sizeUpTo: readonly (readonly [ChangeSize, most: number])[] = [['none', 0], ['small', 3], ['moderate', 5], ['large', mostGlobalChange]]

export function sizeOfChange(rating: number): ChangeSize {
  const found = Number.isInteger(rating) ? sizeUpTo.find(([, most]) => Math.abs(rating) <= most) : undefined
  if (found === undefined) throw new RangeError('a global rating is a whole number from -7 to 7')
  return found[0]
}
