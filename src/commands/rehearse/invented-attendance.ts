// One session of an invented client, who writes the script as they are asked.
import type { SessionAnswers, SetAnswer } from './answers-schema.ts'
import type { AskedSet, Attendance } from './attendance.ts'
import type { Temperament } from './client-kinds.ts'
import type { Dice } from './dice.ts'
import type { InventedClient } from './invented-client.ts'

type Script = { -readonly [Key in keyof SessionAnswers]: SessionAnswers[Key] }

export class InventedAttendance implements Attendance {
  readonly answers: Script
  isLocked = false
  private readonly client: InventedClient
  private readonly temperament: Temperament
  private readonly dice: Dice
  private readonly says: string | null

  constructor(day: number, isClearing: boolean, says: string | null, client: InventedClient, temperament: Temperament, dice: Dice) {
    this.answers = isClearing ? { day, clear: true } : { day }
    this.client = client
    this.temperament = temperament
    this.dice = dice
    this.says = says
  }

  before(): SessionAnswers['before'] {
    this.answers.before ??= this.says === null ? { pain: this.client.painNow() } : { pain: this.client.painNow(), says: this.says }
    return this.answers.before
  }

  set(asked: AskedSet, index: number): SetAnswer | null {
    const sets = (this.answers.sets ??= {})
    const own = (sets[asked.direction] ??= [])
    if (own[index] === undefined) own[index] = this.dice.chance(this.temperament.leavesSetOut) ? null : this.client.answer(asked)
    return own[index]
  }

  morning(): SessionAnswers['morning'] {
    if (this.answers.morning === undefined) {
      this.answers.morning = this.dice.chance(this.temperament.missesMorning) ? null : { pain: this.client.painNextMorning() }
    }
    return this.answers.morning
  }

  findLocked(): void {
    this.isLocked = true
  }
}
