import type { DocumentId, Instant } from '#src/domain/identifier.ts'
import { brandAs } from '#src/domain/identifier.ts'
import type { DeskCard } from './desk-card.ts'
import { documentFormat, type DocumentFormat } from './document-format.ts'

/** An invitation is known by the digest of its token; the token itself is only in the link. */
export interface Invitation {
  readonly digest: string
  readonly for: { readonly kind: 'client'; readonly chart: DocumentId } | { readonly kind: 'therapist' }
  readonly expiresAt: Instant
  readonly usedAt: Instant | null
}

/** The one clinic of a store: its therapists, the invitations, the code that claims it. */
export interface Clinic {
  readonly kind: 'clinic'
  readonly id: DocumentId
  readonly format: DocumentFormat
  readonly claimDigest: string | null
  /** Somebody has sent the code, settled in or not. */
  readonly isClaimed: boolean
  readonly therapists: readonly DeskCard[]
  readonly invitations: readonly Invitation[]
  /** Charts enrolled from a file before there was a therapist. */
  readonly awaiting: readonly DocumentId[]
  /** Desks that were closed, and who took over; left out while none was. */
  readonly left?: readonly { readonly desk: DocumentId; readonly to: DocumentId }[]
}

export const clinicId = brandAs<DocumentId>('clinic')

export function newClinic(): Clinic {
  return { kind: 'clinic', id: clinicId, format: documentFormat, claimDigest: null, isClaimed: false, therapists: [], invitations: [], awaiting: [] }
}
