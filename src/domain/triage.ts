import type { SignId } from './identifier.ts'

export const alertLevels = ['routine', 'urgent', 'emergency'] as const
export type AlertLevel = (typeof alertLevels)[number]

/** One sign of the triage content. */
export interface Sign {
  readonly id: SignId
  readonly level: AlertLevel
  /** Which group of the screen it is asked under. */
  readonly group: string
}

/** Whether a therapist may record it as long-standing, so that it alarms only when worse, new or spread. */
export function mayBeKnown({ id, level }: Sign, { neverKnown }: Pick<Triage, 'neverKnown'>): boolean {
  return level !== 'emergency' && !neverKnown.includes(id)
}

/** The times of escalation, in minutes. */
export interface EscalationTimes {
  /** Unacknowledged: sent again after, then to the second contact, then to all, then every. */
  readonly resendAfter: { readonly emergency: number; readonly urgent: number }
  readonly everyAfterwards: number
  /** Acknowledged without a recorded contact: open again after. */
  readonly contactWithin: { readonly emergency: number; readonly urgent: number }
  /** The client is asked again whether they called. */
  readonly askCalledAfter: readonly number[]
  /** An unsure sign is asked again, then alerted as unconfirmed. */
  readonly unsureAskAgainAfter: number
  readonly unsureAlertAfter: { readonly emergency: number; readonly urgent: number }
}

/** Signs of general illness: what one of them weighs depends on what else is known. */
export interface IllnessRule {
  readonly signs: readonly string[]
  /** Two, told this many days apart or closer, are together. */
  readonly togetherWithinDays: number
  /** Conditions with which one alone is urgent. */
  readonly urgentAloneWith: readonly string[]
}

/** When the screen is asked in full, besides the first one and the one after a lock; local calendar days. */
export interface ScreenTimes {
  readonly fullEveryDays: number
  /** More than these without a session. */
  readonly fullAfterDaysOff: number
}

/** What is told without a lock once it has gone on for so many local calendar days. */
export interface RoutineTimes {
  /** Pain at rest above the usual for more than these. */
  readonly sorenessPastDays: number
  readonly noStepUpDays: number
}

export interface Triage {
  readonly version: string
  readonly signs: readonly Sign[]
  /** The groups of the short screen, in order. */
  readonly groups: readonly string[]
  /** Groups that are asked only of clients with one of these conditions. */
  readonly groupsOnlyWith: Readonly<Record<string, readonly string[]>>
  /** Signs that cannot be recorded as long-standing, besides those of an emergency. */
  readonly neverKnown: readonly string[]
  readonly illness: IllnessRule
  readonly screen: ScreenTimes
  readonly routine: RoutineTimes
  readonly escalation: EscalationTimes
  readonly gates: Gates
}

/** Who may be enrolled. A condition refuses, limits to holds and band, or rules out the bridge. */
export interface Gates {
  readonly minimumAge: number
  readonly guardianBelowAge: number
  readonly limitedFromAge: number
  readonly refusedBloodPressure: { readonly systolic: number; readonly diastolic: number }
  readonly limitedBloodPressure: { readonly systolic: number; readonly diastolic: number }
  readonly refusing: readonly string[]
  readonly refusingWithoutClearance: readonly string[]
  readonly limiting: readonly string[]
  readonly noBridge: readonly string[]
  /** Asked about at enrolment; they close nothing. */
  readonly noted: readonly string[]
}

/** A sign found in what a client said or pressed. */
export interface RedFlag {
  readonly level: AlertLevel
  readonly sign: SignId
}
