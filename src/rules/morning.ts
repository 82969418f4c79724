// Decides: whether the morning after was fine.
// Source: pain-monitoring model, settled by the next morning (Silbernagel 2007); one above usual is fine, two is not (our
// choice). Reviewed 2026-11.
import type { Protocol } from '#src/domain/protocol.ts'
import type { Pain } from '#src/domain/set-report.ts'

export type Morning =
  | { readonly kind: 'fine' | 'bad'; readonly pain: Pain; readonly usual: Pain }
  | { readonly kind: 'missing' }

/**
 * The worse of the morning's answer and of "worst since then". A bad "worst since" counts without the morning; a fine one
 * does not stand in for it.
 */
export function judgeMorning(morning: Pain | null, worstSince: Pain | null, usual: Pain, protocol: Protocol): Morning {
  const worst = Math.max(morning ?? -1, worstSince ?? -1)
  if (worst >= usual + protocol.morning.badAboveUsualBy) return { kind: 'bad', pain: worst, usual }
  return morning === null ? { kind: 'missing' } : { kind: 'fine', pain: worst, usual }
}
