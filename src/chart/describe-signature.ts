import type { Content, Words } from '#src/content/content.ts'

/** The signature in one line; `words` are those of its reader. */
export function describeSignature({ signature, triage }: Content, words: Words): string {
  const by = 'by' in signature ? { name: signature.by.name, registration: signature.by.registration, on: signature.by.on, signed: signature.by.version } : {}
  return words.say(`enrolment.signature.${signature.kind}`, { version: triage.version, ...by })
}
