import type { AlertId, DocumentId, Instant, SignId } from '#src/domain/identifier.ts'
import type { AlertLevel } from '#src/domain/triage.ts'

/** What a therapist must acknowledge; an emergency or urgent one stays until a person clears it. */
export interface Alert {
  readonly id: AlertId
  readonly level: AlertLevel
  /** The sign for a red flag; null for a rule or an event that is told. */
  readonly sign: SignId | null
  /** One line: what this is about. */
  readonly title: string
  /** The client's words, or what they pressed. */
  readonly words: string | null
  /** Which of the words were taken for a sign; absent where something was pressed, or all of them were. */
  readonly matched?: string
  readonly raisedAt: Instant
  /** False where a suspected sign was never answered. */
  readonly isConfirmed: boolean
  /** Exercise, dose and set at that moment. */
  readonly during: string | null
  /** What the client was told. */
  readonly told: string | null
  /** What the client answered since: whether they called. */
  readonly clientSaid: string | null
  readonly acknowledged: { readonly by: string; readonly at: Instant } | null
  readonly contacted: { readonly by: string; readonly at: Instant } | null
  /** How often it was sent. */
  readonly sendings: number
  /** The desks that it was sent to; the clinic's id stands for everybody. */
  readonly sentTo: readonly DocumentId[]
  /** The desks of which the network says that it did not arrive, or not yet. */
  readonly unreached: readonly DocumentId[]
  /** It arrived nowhere, and the client has been told so. */
  readonly hasReachedNobody: boolean
}
