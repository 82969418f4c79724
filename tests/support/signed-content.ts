// The shipped content as a clinic outside the demo has it: signed, not signed, or changed since.
import type { Content } from '#src/content/content.ts'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import type { SignatureState, TriageSignature } from '#src/domain/signature.ts'
import { content } from './sample-chain.ts'

/** Saoirse Bly, in a register that we have made up. */
export const signature: TriageSignature = {
  name: 'Saoirse Bly',
  registration: 'Invented register 4711',
  on: brandAs<LocalDate>('2026-01-02'),
  version: content.triage.version,
}

export function contentUnder(state: SignatureState): Content {
  return { ...content, signature: state }
}

export const signedContent: Content = contentUnder({ kind: 'signed', by: signature })
