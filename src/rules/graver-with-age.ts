// Decides: when a new fall, crash or blow is an emergency by the client's age alone.
// Source: Canadian C-spine rule (Stiell 2001): from 65 on, age is a high-risk factor whatever the blow was. Reviewed 2026-11.
import { brandAs, type SignId } from '#src/domain/identifier.ts'
import type { RedFlag } from '#src/domain/triage.ts'

/** Exactly 65 counts. */
const highRiskFromAge = 65
const anyTrauma = brandAs<SignId>('other-trauma')
const dangerousTrauma: RedFlag = { level: 'emergency', sign: brandAs<SignId>('dangerous-trauma') }

export function graverWithAge(flag: RedFlag, age: number): RedFlag {
  return flag.sign === anyTrauma && age >= highRiskFromAge ? dangerousTrauma : flag
}
