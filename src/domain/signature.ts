import type { LocalDate } from './identifier.ts'

/** A clinician's word that they have reviewed the triage content of one version and stand for it. */
export interface TriageSignature {
  readonly name: string
  /** Professional body and number. */
  readonly registration: string
  readonly on: LocalDate
  /** The version of `content/triage.yaml` that was reviewed. */
  readonly version: string
}

/** How the triage content that is in force is signed. */
export type SignatureState =
  /** Invented people only: nobody has to have signed. */
  | { readonly kind: 'demo' }
  | { readonly kind: 'unsigned' }
  /** There is a signature that cannot be read, so that nobody knows what was signed. */
  | { readonly kind: 'unusable' }
  /** What was signed is not what is in force now. */
  | { readonly kind: 'changed'; readonly by: TriageSignature }
  | { readonly kind: 'signed'; readonly by: TriageSignature }

export const signatureKinds = ['demo', 'unsigned', 'unusable', 'changed', 'signed'] as const satisfies readonly SignatureState['kind'][]

/** Whether anybody may be enrolled, or may join: outside the demo only under triage content that is signed as it is. */
export function mayTakeIn({ kind }: SignatureState): boolean {
  return kind === 'demo' || kind === 'signed'
}
