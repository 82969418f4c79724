/** One each `everyMs` in the long run, and after a pause up to `burst` at once. */
export interface Steadiness {
  readonly everyMs: number
  readonly burst: number
}

/**
 * The whole memory of a steady pace is one instant: when the last one taken would have gone had they all kept their
 * distance (the generic cell rate algorithm, ITU-T I.371, from memory). `freeAt` is that instant plus one distance.
 */
export function spacingDelayMs(freeAt: number, now: number, { everyMs, burst }: Steadiness): number {
  return Math.max(0, freeAt - (burst - 1) * everyMs - now)
}

export function nextFreeAt(freeAt: number, now: number, everyMs: number): number {
  return Math.max(freeAt, now) + everyMs
}
