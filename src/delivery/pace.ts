import type { Urgency } from '#src/domain/message.ts'
import type { SendingLimits } from '#src/ports/channel.ts'
import type { Clock } from '#src/ports/clock.ts'
import { SendingWindow, sharedAllowance } from './sending-window.ts'
import { nextFreeAt, spacingDelayMs, type Steadiness } from './spacing.ts'

/** The part of a network's allowance that is this process's own: above 0, at most 1. */
export type Share = () => number

/**
 * Our choice: what is no alert goes evenly, and at once only up to this part of the allowance. Otherwise a crowd would use
 * up each stretch at its beginning, and an alert would wait for the rest of it.
 */
const partAtOnce = 1 / 6
/** Our choice: more than that at once to one person, whatever else they were sent just before. */
const alertsOnTop = 5
const fewestBeforeSweep = 1000

/**
 * Keeps a network's published limits, so that it need not refuse. Alerts are bound only by what the network takes: within
 * the overall limit they go whenever a place is free, and to one person beyond the usual burst.
 */
export class Pace {
  readonly #limits: SendingLimits
  readonly #clock: Clock
  readonly #share: Share
  readonly #window: SendingWindow
  #freeAt = 0
  /** When each person's last message would have gone at a steady pace; forgotten once that is past. */
  readonly #contacts = new Map<string, number>()
  #sweepAbove = fewestBeforeSweep
  #heard: number
  #time = 0

  constructor(limits: SendingLimits, clock: Clock, share: Share = () => 1) {
    this.#limits = limits
    this.#clock = clock
    this.#share = share
    this.#window = new SendingWindow(limits.overall.atMost)
    this.#heard = clock.now()
  }

  /** How long until the network may be sent one more, to whomever; 0 for now. */
  overallDelayMs(urgency: Urgency): number {
    const now = this.#now()
    const allowance = sharedAllowance(this.#limits.overall, this.#share())
    const full = this.#window.delayMs(now, allowance)
    if (urgency === 'alert') return Math.ceil(full)
    const everyMs = allowance.withinMs / allowance.atMost
    const burst = Math.max(1, Math.floor(allowance.atMost * partAtOnce))
    return Math.ceil(Math.max(full, spacingDelayMs(this.#freeAt, now, { everyMs, burst })))
  }

  /** How long until this person may be sent one more; 0 for now. */
  contactDelayMs(contact: string, urgency: Urgency): number {
    const freeAt = this.#contacts.get(contact) ?? 0
    return Math.ceil(spacingDelayMs(freeAt, this.#now(), this.#steadinessFor(urgency)))
  }

  /** One goes now. */
  take(contact: string): void {
    const now = this.#now()
    const { atMost, withinMs } = sharedAllowance(this.#limits.overall, this.#share())
    this.#window.take(now)
    this.#freeAt = nextFreeAt(this.#freeAt, now, withinMs / atMost)
    this.#contacts.set(contact, nextFreeAt(this.#contacts.get(contact) ?? 0, now, this.#limits.perContact.everyMs))
    if (this.#contacts.size > this.#sweepAbove) this.#sweep(now)
  }

  /** One person's messages come from one process at a time, so that their limit is not shared out. */
  #steadinessFor(urgency: Urgency): Steadiness {
    const { everyMs, burst } = this.#limits.perContact
    return { everyMs, burst: urgency === 'alert' ? burst + alertsOnTop : burst }
  }

  #sweep(now: number): void {
    for (const [contact, freeAt] of this.#contacts) if (freeAt <= now) this.#contacts.delete(contact)
    this.#sweepAbove = Math.max(fewestBeforeSweep, this.#contacts.size * 2)
  }

  /** Time that only goes on: a clock that is set back would otherwise hold everybody back for as long. */
  #now(): number {
    const heard = this.#clock.now()
    this.#time += Math.max(0, heard - this.#heard)
    this.#heard = heard
    return this.#time
  }
}
