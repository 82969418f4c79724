// Decides: whether a maximal test may be entered for a client now.
// Source: maximal tests are the therapist's, and never done with pain above comfortable: common practice, no source.
// That a lock forbids them too is our choice. Reviewed 2026-11.
import type { Protocol } from '#src/domain/protocol.ts'
import type { Pain } from '#src/domain/set-report.ts'
import { comfortableUpTo, painZone } from './pain-zone.ts'

export interface MaximalTest {
  readonly isLocked: boolean
  /** The last pain the client has told; null where they have told none yet. */
  readonly lastPain: Pain | null
  readonly usualPain: Pain
  readonly protocol: Protocol
}

export type MaximalTestVerdict =
  | { readonly kind: 'allowed' }
  | { readonly kind: 'locked' }
  | { readonly kind: 'pain'; readonly pain: Pain; readonly limit: Pain }

export function mayTestMaximum({ isLocked, lastPain, usualPain, protocol }: MaximalTest): MaximalTestVerdict {
  if (isLocked) return { kind: 'locked' }
  if (lastPain === null || painZone(lastPain, usualPain, protocol) === 'comfortable') return { kind: 'allowed' }
  return { kind: 'pain', pain: lastPain, limit: comfortableUpTo(usualPain, protocol) }
}
