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

export interface Triage {
  readonly version: string
  readonly signs: readonly Sign[]
  /** The groups of the short screen, in order. */
  readonly groups: readonly string[]
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
}

/** A sign found in what a client said or pressed. */
export interface RedFlag {
  readonly level: AlertLevel
  readonly sign: SignId
}
