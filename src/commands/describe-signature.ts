// The signature of the triage content in one line, for whoever starts, checks or enrols.
import type { SignatureState } from '#src/domain/signature.ts'

export function describeSignature(state: SignatureState, version: string): string {
  const rules = `Triage content version ${version}`
  if (state.kind === 'demo') return `${rules}: a demo with invented people, signed by nobody.`
  if (state.kind === 'signed') return `${rules}, signed by ${state.by.name} (${state.by.registration}) on ${state.by.on}.`
  if (state.kind === 'changed') return `${rules} has changed since ${state.by.name} signed version ${state.by.version} on ${state.by.on}.`
  if (state.kind === 'unusable') return `${rules}: its signature cannot be read.`
  return `${rules} is signed by nobody.`
}

/** What has to be done before somebody can be enrolled; it says how. */
export function howToSign(version: string): string {
  return `A registered clinician reviews it with "sign --show" and signs with "sign --name … --registration … --i-have-reviewed-it ${version}".`
}
