/** So many within so long, in any such stretch and not only on average. */
export interface Allowance {
  readonly atMost: number
  readonly withinMs: number
}

/** The part of an allowance that falls to one of several senders; below one message the stretch grows instead. */
export function sharedAllowance({ atMost, withinMs }: Allowance, share: number): Allowance {
  const own = atMost * Math.min(1, share)
  return own >= 1 ? { atMost: Math.floor(own), withinMs } : { atMost: 1, withinMs: withinMs / own }
}

/** Remembers what was sent last, so that no stretch ever holds more than an allowance. */
export class SendingWindow {
  /** Oldest first, never more than the largest allowance asked about. */
  readonly #sent: number[] = []
  readonly #remembered: number

  constructor(remembered: number) {
    this.#remembered = remembered
  }

  /** How long until one more may go; 0 for now. */
  delayMs(now: number, { atMost, withinMs }: Allowance): number {
    const first = this.#sent.at(-atMost)
    return this.#sent.length < atMost || first === undefined ? 0 : Math.max(0, first + withinMs - now)
  }

  take(now: number): void {
    this.#sent.push(now)
    if (this.#sent.length > this.#remembered) this.#sent.shift()
  }
}
