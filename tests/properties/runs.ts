// How many scripts the properties play, in one place. `npm test` plays a modest number from a fixed seed. NIGHTLY_RUNS=10000
// (any whole number; tests/nightly/nightly.ts) plays that many from a fresh seed, which every title and failure prints;
// NIGHTLY_SEED plays one of them again.
import type { Parameters } from 'fast-check'

const nightly = process.env.NIGHTLY_RUNS
const fixedSeed = 20261125

export const seed = Number(process.env.NIGHTLY_SEED ?? (nightly === undefined ? fixedSeed : Date.now() % 2 ** 31))

/** `share`: the part of a nightly run's number that a costlier property plays. */
export function runs(usual: number, share = 1): number {
  return nightly === undefined ? usual : Math.ceil(Number(nightly) * share)
}

/** Long enough for a nightly run on a slow machine. */
export const timeoutMs = nightly === undefined ? 120_000 : 12 * 3_600_000

/** A failure prints seed and path. It is made small by a nightly run only: every try is a whole rehearsal. */
export function parameters(usual: number, share = 1): Parameters<unknown> {
  return { seed, numRuns: runs(usual, share), endOnFailure: nightly === undefined }
}
