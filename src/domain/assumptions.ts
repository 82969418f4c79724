export const sexes = ['female', 'male'] as const
export type Sex = (typeof sexes)[number]

/** What a load is worked out from besides the measured force: nobody measures these at a visit, so they are stated. */
export interface Assumptions {
  readonly bodyKg: number
  /** The head's share of the body's mass. */
  readonly headShare: number
  /** From the neck's axis at C7 to the middle of the head's mass. */
  readonly headLeverCm: number
  /** From the same axis to where the dynamometer, the band and the harness take hold. */
  readonly testerLeverCm: number
  readonly bandLeverCm: number
  readonly harnessLeverCm: number
}

export type AssumptionId = keyof Assumptions

export interface SourcedValue {
  readonly value: number
  readonly source: string
}

/** The assumptions as they ship: of the head's share one for each sex, and one where the plan names none. */
export interface ShippedAssumptions extends Readonly<Record<Exclude<AssumptionId, 'headShare'>, SourcedValue>> {
  readonly headShare: Readonly<Record<Sex | 'unknown', SourcedValue>>
}

/** What a therapist states instead, for one client. */
export type OwnAssumptions = { readonly [Id in AssumptionId]?: number | undefined } & { readonly sex?: Sex | undefined }
