// What the whole clinic knows of a therapist: when they are on duty, when they are away, who stands in.
import type { DocumentId, Instant } from '#src/domain/identifier.ts'
import type { WallTime, Weekday } from '#src/domain/plan.ts'
import type { Cover as CoverInZone } from '#src/schedule/cover.ts'

/** When a therapist is on duty. */
export interface Cover {
  readonly days: readonly Weekday[]
  readonly from: WallTime
  readonly to: WallTime
}

/** Off duty for days, up to but not at `until`. */
export interface Away {
  readonly from: Instant
  readonly until: Instant
  /** The desk that gets the alerts meanwhile. */
  readonly standIn: DocumentId | null
}

/** What other documents know of a therapist. */
export interface DeskCard {
  readonly desk: DocumentId
  readonly name: string
  readonly zone: string
  readonly cover: Cover
  /** Left out where they are not away. */
  readonly away?: Away
}

/** When the therapist of a card is on duty. */
export function coverOf({ cover, zone, away }: Omit<DeskCard, 'desk' | 'name'>): CoverInZone {
  return { ...cover, zone, ...(away === undefined ? {} : { away }) }
}
