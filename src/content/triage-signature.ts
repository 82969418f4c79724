// The signature of a clinic's triage content, kept beside its data: an upgrade of the content leaves it in place, and shows.
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { stringify } from 'yaml'
import { z } from 'zod'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import type { SignatureState, TriageSignature } from '#src/domain/signature.ts'
import type { Problem } from './problem.ts'
import { readShaped } from './read-shaped.ts'
import { textLike } from './scalar-schemas.ts'

export const signatureFileName = 'triage-signature.yaml'

export const signerSchema = z.strictObject({
  name: textLike(/^.*\p{L}.*\p{L}.*$/u, 'must be a name', 'Write first and last name of the clinician who signs.'),
  registration: textLike(/^(?=.*\p{L}).*\d.*$/u, 'must name a register and a number', 'Write the professional body and the number, e.g. "Health register 12345".'),
})

const fileSchema = signerSchema.extend({
  date: z.iso.date({ error: 'must be a calendar day such as 2026-03-31' }).transform((day) => brandAs<LocalDate>(day)),
  version: z.string().min(1),
  digest: textLike(/^[0-9a-f]{64}$/, 'must be a digest', 'Sign again; the file is not written by hand.'),
})

export interface ReadSignature {
  readonly state: Exclude<SignatureState, { kind: 'demo' }>
  /** Why it cannot be used, for whoever checks. */
  readonly problems: readonly Problem[]
}

/** What `folder` holds, against the digest of the content in force. An unreadable one closes the gates and stops nothing else. */
export function readSignature(folder: string, digest: string): ReadSignature {
  const text = textOf(join(folder, signatureFileName))
  if (text === null) return { state: { kind: 'unsigned' }, problems: [] }
  const reading = text === 'unreadable' ? null : readShaped(text.text, signatureFileName, fileSchema)
  if (reading?.kind !== 'read') {
    const unreadable = [{ file: signatureFileName, line: 1, path: '', message: 'cannot be read', mend: 'Make it readable, or sign again.' }]
    return { state: { kind: 'unusable' }, problems: reading === null ? unreadable : reading.problems }
  }
  const { name, registration, date, version, digest: signed } = reading.value
  const by: TriageSignature = { name, registration, on: date, version }
  if (signed === digest) return { state: { kind: 'signed', by }, problems: [] }
  const mend = 'Review what has changed (sign --show) and sign again.'
  return { state: { kind: 'changed', by }, problems: [reading.source.problem(['digest'], 'is not of the triage content in force', mend)] }
}

function textOf(path: string): { readonly text: string } | 'unreadable' | null {
  try {
    return { text: readFileSync(path, 'utf8') }
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ENOENT' ? null : 'unreadable'
  }
}

/** The file's text. */
export function writeSignatureText({ name, registration, on, version }: TriageSignature, digest: string): string {
  return `# Written by \`sign\`: who has reviewed the triage content, and which. A change of that content asks for a new one.\n${stringify({ name, registration, date: on, version, digest })}`
}
