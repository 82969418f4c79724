// Decides: how bad a pain answer is, against the client's usual pain.
// Source: pain-monitoring model (Thomeé 1997; Silbernagel 2007), cut-offs 2 and 5; not tested in neck pain, so a
// therapist may set them inside the bounds of the protocol. Reviewed 2026-11.
import type { Protocol } from '#src/domain/protocol.ts'
import type { Pain } from '#src/domain/set-report.ts'

export type PainZone = 'comfortable' | 'amber' | 'red'

/** Up to which pain is comfortable: the usual one too, but nothing that is red. */
export function comfortableUpTo(usual: Pain, { pain }: Protocol): Pain {
  return Math.min(pain.amberUpTo, Math.max(pain.comfortableUpTo, usual))
}

/** Above `amberUpTo` is red whatever the usual pain; up to the usual pain is comfortable below that. */
export function painZone(pain: Pain, usual: Pain, protocol: Protocol): PainZone {
  if (pain > protocol.pain.amberUpTo) return 'red'
  return pain <= comfortableUpTo(usual, protocol) ? 'comfortable' : 'amber'
}
