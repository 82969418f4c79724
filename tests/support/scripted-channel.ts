import type { Contact, Message, Urgency } from '#src/domain/message.ts'
import type { Channel, SendingLimits, SendResult } from '#src/ports/channel.ts'

export interface Sent {
  readonly address: string
  readonly text: string
  readonly urgency: Urgency | 'amend'
}

type Answer = (sent: Sent, number: number) => SendResult | Promise<SendResult>

export const later = (afterMs: number): SendResult => ({ kind: 'later', afterMs })

/** A network that answers as the test says; without a script it takes everything. */
export class ScriptedChannel implements Channel {
  readonly name: string
  readonly limits?: SendingLimits
  /** Every call, in the order in which they came. */
  readonly tried: Sent[] = []
  /** What the network took. */
  readonly taken: Sent[] = []
  /** How many calls for the same person were under way at once, at most. */
  mostAtOnce = 0
  answer: Answer = (_sent, number) => ({ kind: 'sent', ref: `ref-${number}` })
  readonly #underWay = new Map<string, number>()

  constructor(name = 'net', limits?: SendingLimits) {
    this.name = name
    if (limits !== undefined) this.limits = limits
  }

  /** The texts that the network took, of one person or of all. */
  texts(address?: string): readonly string[] {
    return this.taken.filter((one) => address === undefined || one.address === address).map(({ text }) => text)
  }

  async start(): Promise<void> {}
  async stop(): Promise<void> {}

  send(to: Contact, message: Message, urgency: Urgency): Promise<SendResult> {
    const isTooLong = message.buttons.flat().some(({ data }) => Buffer.byteLength(data) > 64)
    if (isTooLong || message.text === '') throw new TypeError('no network takes this message')
    return this.#take({ address: to.address, text: message.text, urgency })
  }

  amend(to: Contact, ref: string, text: string): Promise<SendResult> {
    return this.#take({ address: to.address, text: `${ref}: ${text}`, urgency: 'amend' })
  }

  async invitationLink(token: string): Promise<string> {
    return `net://join/${token}`
  }

  async #take(sent: Sent): Promise<SendResult> {
    const underWay = (this.#underWay.get(sent.address) ?? 0) + 1
    this.#underWay.set(sent.address, underWay)
    this.mostAtOnce = Math.max(this.mostAtOnce, underWay)
    this.tried.push(sent)
    try {
      const result = await this.answer(sent, this.tried.length)
      if (result.kind === 'sent') this.taken.push(sent)
      return result
    } finally {
      this.#underWay.set(sent.address, underWay - 1)
    }
  }
}
