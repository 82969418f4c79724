// Decides: who may be enrolled, and who only for holds and band.
// Source: triage content ("Who may be enrolled"); blood pressure limits follow Williams 2007 (AHA), the exact limit
// counting as above it; age and condition lists are our choice for a clinician to review. Reviewed 2026-11.
import type { Screening } from '#src/domain/plan.ts'
import type { Gates } from '#src/domain/triage.ts'

export type GateReason =
  | { readonly kind: 'too-young'; readonly age: number; readonly limit: number }
  | { readonly kind: 'guardian-needed'; readonly age: number; readonly limit: number }
  | { readonly kind: 'blood-pressure'; readonly systolic: number; readonly diastolic: number }
  | { readonly kind: 'condition'; readonly condition: string }
  | { readonly kind: 'surgeon-clearance-needed'; readonly condition: string }

/** Why somebody cannot be enrolled; empty where they can. */
export function refusals(screening: Screening, gates: Gates): readonly GateReason[] {
  const { age, conditions } = screening
  const reasons: GateReason[] = []
  if (age < gates.minimumAge) reasons.push({ kind: 'too-young', age, limit: gates.minimumAge })
  else if (age < gates.guardianBelowAge && !screening.hasGuardianConsent) {
    reasons.push({ kind: 'guardian-needed', age, limit: gates.guardianBelowAge })
  }
  if (reaches(screening, gates.refusedBloodPressure) && screening.bloodPressure) {
    reasons.push({ kind: 'blood-pressure', ...screening.bloodPressure })
  }
  for (const condition of conditions) {
    if (gates.refusing.includes(condition)) reasons.push({ kind: 'condition', condition })
    if (gates.refusingWithoutClearance.includes(condition) && !screening.hasSurgeonClearance) {
      reasons.push({ kind: 'surgeon-clearance-needed', condition })
    }
  }
  return reasons
}

/** Whether only holds and band are open, unless the therapist overrides with a reason. */
export function isLimited(screening: Screening, gates: Gates): boolean {
  return (
    screening.age >= gates.limitedFromAge ||
    reaches(screening, gates.limitedBloodPressure) ||
    screening.conditions.some((condition) => gates.limiting.includes(condition))
  )
}

function reaches(screening: Screening, limit: { readonly systolic: number; readonly diastolic: number }): boolean {
  const pressure = screening.bloodPressure
  return pressure !== null && (pressure.systolic >= limit.systolic || pressure.diastolic >= limit.diastolic)
}
