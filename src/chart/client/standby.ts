// Decides: who is sent an alert at once, and whether anybody of them is on duty.
// Source: triage rules (therapist, then second contact, then everybody); who stands in meanwhile is our choice.
import type { Instant } from '#src/domain/identifier.ts'
import { isAway, isOnCover, nextCoverAt } from '#src/schedule/cover.ts'
import type { Chart, Lock } from '../chart.ts'
import { coverOf, type DeskCard } from '../desk-card.ts'

export interface Standby {
  /** The therapist first, on duty or not. */
  readonly readers: readonly DeskCard[]
  /** Nobody nearer is on duty: everybody of the clinic. */
  readonly isForAll: boolean
  readonly isAnybodyOnDuty: boolean
  /** When the first of those who may come to know of it is on duty; null where nobody ever is. */
  readonly nextOnDutyAt: Instant | null
}

/**
 * The therapist always; where they are off duty whoever stands in for them, else the second contact if on duty, else
 * everybody for an emergency. Whoever stands in gets it at any hour; if they are off duty it goes on as if nobody did.
 */
export function standbyFor(chart: Chart, level: Lock['level'], at: Instant): Standby {
  const { therapist, second } = chart
  const isOn = (card: DeskCard): boolean => isOnCover(coverOf(card), at)
  const standIn = standInOf(chart, at)
  const near = [therapist, standIn].flatMap((card) => card ?? [])
  const isNearOn = near.some(isOn)
  const isSecondOn = !isNearOn && second !== null && isOn(second)
  const readers = distinct([...near, ...(isSecondOn ? [second] : [])])
  const isForAll = !isNearOn && !isSecondOn && level === 'emergency'
  const all = distinct([...readers, ...(second === null ? [] : [second]), ...(isForAll ? chart.colleagues : [])])
  return {
    readers,
    isForAll,
    isAnybodyOnDuty: (isForAll ? all : readers).some(isOn),
    nextOnDutyAt: earliest(all.map((card) => nextCoverAt(coverOf(card), at))),
  }
}

/** Everybody of the clinic that this chart knows of. */
export function knownStaff({ therapist, second, colleagues }: Chart): readonly DeskCard[] {
  return distinct([therapist, second, ...colleagues].flatMap((card) => card ?? []))
}

function standInOf({ therapist, colleagues }: Chart, at: Instant): DeskCard | null {
  const { away } = therapist ?? {}
  if (therapist === null || away === undefined || away.standIn === null || !isAway(coverOf(therapist), at)) return null
  return colleagues.find(({ desk }) => desk === away.standIn) ?? null
}

function distinct(cards: readonly DeskCard[]): readonly DeskCard[] {
  return cards.filter((card, index) => cards.findIndex(({ desk }) => desk === card.desk) === index)
}

function earliest(instants: readonly (Instant | null)[]): Instant | null {
  const known = instants.flatMap((at) => at ?? [])
  return known.length === 0 ? null : Math.min(...known)
}
