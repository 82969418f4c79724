// Invented clients of several kinds, alike for the same seed: what a plan does before it is prescribed.
import type { Content } from '#src/content/content.ts'
import { weekdays, type Plan } from '#src/domain/plan.ts'
import type { Attendance } from './attendance.ts'
import { clientKinds, temperaments, type ClientKind, type Temperament } from './client-kinds.ts'
import { createDice, type Dice } from './dice.ts'
import { InventedAttendance } from './invented-attendance.ts'
import { InventedClient } from './invented-client.ts'

export interface Inventing {
  readonly count: number
  readonly seed: number
  readonly weeks: number
  /** Null for all of them by turns. */
  readonly kind: ClientKind | null
}

export interface Invented {
  readonly client: { readonly number: number; readonly kind: ClientKind }
  /** Their sessions, each to be played before the next is asked for. */
  readonly attendances: Iterable<Attendance>
}

const daysAWeek = 7
/** Urgent, and cleared by the therapist before the second session after it. */
const symptomWords = 'my left hand has gone numb and tingly'

/** One after the other, so that a thousand clients need no more memory than one. */
export function* inventClients(plan: Plan, content: Content, { count, seed, weeks, kind: only }: Inventing): Generator<Invented> {
  for (let number = 1; number <= count; number += 1) {
    const kind = only ?? clientKinds[(number - 1) % clientKinds.length] ?? 'steady'
    yield { client: { number, kind }, attendances: attend(plan, content, temperaments[kind], weeks, createDice(seed * 1_000_003 + number)) }
  }
}

function* attend(plan: Plan, content: Content, temperament: Temperament, weeks: number, dice: Dice): Generator<Attendance> {
  const { flare, away, hasSymptom } = temperament
  const client = new InventedClient(temperament, plan, content, flare && { from: middleDay(weeks, dice), height: dice.roll(...flare) }, dice)
  const awayFrom = middleDay(weeks, dice)
  const awayTo = away === null ? awayFrom : awayFrom + dice.roll(...away)
  let symptomFrom = hasSymptom ? middleDay(weeks, dice) : Infinity
  let isClearing = false
  for (let day = 0; day < weeks * daysAWeek; day += 1) {
    if ((day >= awayFrom && day < awayTo) || !trainsOn(day, plan, temperament, dice)) continue
    const says = day >= symptomFrom ? symptomWords : null
    if (says !== null) symptomFrom = Infinity
    client.wakeOn(day)
    const attendance: InventedAttendance = new InventedAttendance(day, isClearing, says, client, temperament, dice)
    yield attendance
    isClearing = attendance.isLocked
  }
}

/** Neither at the very beginning nor at the very end, so that the picture shows a before and an after. */
function middleDay(weeks: number, dice: Dice): number {
  const days = weeks * daysAWeek
  return dice.roll(Math.floor(days / 4), Math.floor(days / 2))
}

function trainsOn(day: number, { schedule }: Plan, { missesSession, trainsOffDays }: Temperament, dice: Dice): boolean {
  const isScheduled = schedule.days.includes(weekdays[day % daysAWeek] ?? 'mon')
  return isScheduled ? !dice.chance(missesSession) : dice.chance(trainsOffDays)
}
