// An invented client over the weeks: strength, soreness and pain carry on from day to day and answer for every set. Its
// numbers are our choice, like those of the kinds.
import { chainOf, plannedOf } from '#src/chart/client/plan-facts.ts'
import type { Content } from '#src/content/content.ts'
import { ladderOf, sideOf, sides, type LadderId, type Side } from '#src/domain/direction.ts'
import { compareDoses } from '#src/domain/dose.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { Control } from '#src/domain/set-report.ts'
import { startOn } from '#src/rules/moves.ts'
import type { SetAnswer } from './answers-schema.ts'
import type { AskedSet } from './attendance.ts'
import type { Temperament } from './client-kinds.ts'
import type { Dice } from './dice.ts'

const mostPain = 10
/** Days in which half of it is gone. */
const sorenessHalvesIn = 1.5
const flareHalvesIn = 3.5
/** What a second day running adds. */
const unrestedSoreness = 0.5
/** Repetitions left where the dose is just what the client can do, and lost for every place beyond. */
const reserveAtLimit = 2
const reserveAPlace = 0.7
const mostReserve = 5
/** How much weaker one side is, in places. */
const weakerBy = 1

export interface Flare {
  readonly from: number
  readonly height: number
}

export class InventedClient {
  private readonly temperament: Temperament
  private readonly plan: Plan
  private readonly content: Content
  private readonly flare: Flare | null
  private readonly dice: Dice
  private readonly weakSide: Side
  /** The place up to which doses are no trouble. */
  private readonly strength = new Map<LadderId, number>()
  private readonly trainedToday = new Set<LadderId>()
  /** What today's hardest set leaves behind. */
  private strain = 0
  private soreness = 0
  private day = 0

  constructor(temperament: Temperament, plan: Plan, content: Content, flare: Flare | null, dice: Dice) {
    this.temperament = temperament
    this.plan = plan
    this.content = content
    this.flare = flare
    this.dice = dice
    this.weakSide = dice.chance(50) ? sides[0] : sides[1]
  }

  /** Lets the days pass, in which soreness goes and strength comes. */
  wakeOn(day: number): void {
    const days = day - this.day
    const unrested = days === 1 && this.trainedToday.size > 0 ? unrestedSoreness : 0
    this.soreness = (this.soreness + this.strain) * halved(days, sorenessHalvesIn) + unrested
    for (const ladder of this.trainedToday) this.strength.set(ladder, this.strengthOn(ladder) + this.temperament.gain)
    this.trainedToday.clear()
    this.strain = 0
    this.day = day
  }

  painNow(): number {
    return this.painOf(this.soreness, this.day)
  }

  painNextMorning(): number {
    return this.painOf(this.soreness * halved(1, sorenessHalvesIn) + this.strain, this.day + 1)
  }

  answer(asked: AskedSet): SetAnswer {
    const places = this.placesTooHard(asked)
    const strain = Math.max(0, places) * this.temperament.painAPlace
    this.trainedToday.add(ladderOf(asked.direction))
    this.strain = Math.max(this.strain, strain)
    const left = Math.round(reserveAtLimit - places * reserveAPlace) + this.dice.roll(0, 1) + this.temperament.boast
    const reserve = Math.min(mostReserve, Math.max(0, left))
    const answer = { pain: this.painOf(this.soreness + strain, this.day), control: this.controlAt(places), reserve }
    return places > 4 && this.dice.chance(40) ? { ...answer, finished: false } : answer
  }

  private painOf(added: number, day: number): number {
    const since = this.flare === null ? -1 : day - this.flare.from
    const flare = this.flare === null || since < 0 ? 0 : this.flare.height * halved(since, flareHalvesIn)
    const byChance = this.dice.chance(8) ? 1 : 0
    return Math.min(mostPain, this.plan.usualPain + Math.round(added + flare) + byChance)
  }

  private controlAt(places: number): Control {
    if (places > 3 && this.dice.chance(25)) return 'lost'
    return this.dice.chance(places > 0 ? 35 : 1) ? 'shaky' : 'steady'
  }

  /** How far the dose lies above what is no trouble; below 0 it is easy. */
  private placesTooHard({ direction, exercise, dose }: AskedSet): number {
    const ladder = ladderOf(direction)
    const { places } = chainOf(this.plan, ladder, this.content)
    const asked = places.findLastIndex((place) => place.exercise === exercise && compareDoses(place.dose, dose) <= 0)
    return asked - this.strengthOn(ladder) + (sideOf(direction) === this.weakSide ? weakerBy : 0)
  }

  private strengthOn(ladder: LadderId): number {
    const start = startOn(chainOf(this.plan, ladder, this.content), plannedOf(this.plan, ladder).rung)
    return this.strength.get(ladder) ?? start + this.temperament.headStart
  }
}

function halved(days: number, halvesIn: number): number {
  return 0.5 ** (days / halvesIn)
}
