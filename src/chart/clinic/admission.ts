// Who may come in: by the code that claims a clinic, or by an invitation.
import type { Instant } from '#src/domain/identifier.ts'
import type { Clinic, Invitation } from '../clinic.ts'
import { digestOf, isSameDigest } from '../digest.ts'

/** One word of letters and digits, as a code is; whatever else an unknown chat writes is compared with nothing. */
const codeShape = /^[0-9A-Z-]{8,16}$/

/** A message that may be meant as the code, while there is one to be guessed. */
export function isAtClaim({ claimDigest }: Clinic, text: string): boolean {
  return claimDigest !== null && codeShape.test(codeIn(text))
}

export function opensClaim(clinic: Clinic, text: string): boolean {
  return clinic.claimDigest !== null && isAtClaim(clinic, text) && isSameDigest(digestOf(codeIn(text)), clinic.claimDigest)
}

/** The unused, unexpired invitation of this token, or null. Every invitation is compared, whichever fits. */
export function invitationOf({ invitations }: Clinic, token: string, at: Instant): Invitation | null {
  const digest = digestOf(token)
  const [found] = invitations.filter((one) => isSameDigest(one.digest, digest))
  return found !== undefined && found.usedAt === null && at < found.expiresAt ? found : null
}

function codeIn(text: string): string {
  return text.trim().toUpperCase()
}
