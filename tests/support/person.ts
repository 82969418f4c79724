import type { EffectId, Instant } from '#src/domain/identifier.ts'
import type { Button, Contact, Effect, Urgency } from '#src/domain/message.ts'
import type { Inbound } from '#src/ports/channel.ts'

type WithoutId<T> = T extends unknown ? Omit<T, 'id'> : never
/** What comes in, before it has its id. */
export type Incoming = WithoutId<Inbound>

/** One message on a person's screen, as it stands now. */
export interface Shown {
  readonly effect: EffectId
  readonly at: Instant
  readonly text: string
  readonly buttons: readonly Button[]
  readonly urgency: Urgency
}

/** A client or a therapist with a screen: writes, presses by label, reads what came. */
export class Person {
  readonly contact: Contact
  /** Their network cannot bring them anything. */
  isBlocking = false
  private readonly receive: (inbound: Incoming) => void
  private screen: Shown[] = []
  private readUpTo = 0

  constructor(address: string, receive: (inbound: Incoming) => void) {
    this.receive = receive
    this.contact = { channel: 'rig', address }
  }

  /** Every message so far, oldest first. */
  get messages(): readonly Shown[] {
    return this.screen
  }

  write(...texts: readonly string[]): this {
    for (const text of texts) this.receive({ kind: 'message', from: this.contact, text })
    return this
  }

  edit(text: string): this {
    this.receive({ kind: 'message', from: this.contact, text, isEdit: true })
    return this
  }

  sendPicture(): this {
    this.receive({ kind: 'unreadable', from: this.contact })
    return this
  }

  /** Presses the newest button of that label; each label in turn. */
  press(...labels: readonly string[]): this {
    for (const label of labels) this.pressData(this.button(label).data)
    return this
  }

  pressData(data: string): this {
    this.receive({ kind: 'press', from: this.contact, data })
    return this
  }

  open(token: string): this {
    this.receive({ kind: 'join', from: this.contact, token })
    return this
  }

  block(): this {
    this.isBlocking = true
    return this
  }

  unblock(): this {
    this.isBlocking = false
    this.receive({ kind: 'reach', from: this.contact, isReachable: true })
    return this
  }

  /** The newest button of that label that is still on the screen. */
  button(label: string): Button {
    const found = this.screen.flatMap(({ buttons }) => buttons).findLast((button) => button.label === label)
    if (!found) throw new Error(`no button “${label}” on the screen; the newest message is:\n${render(this.screen.at(-1))}`)
    return found
  }

  /** What has come since the last reading, messages apart. */
  read(): string {
    const fresh = this.screen.slice(this.readUpTo)
    this.readUpTo = this.screen.length
    return fresh.map(render).join('\n---\n')
  }

  /** Reads past what has come. */
  skip(): this {
    this.readUpTo = this.screen.length
    return this
  }

  take(effect: Exclude<Effect, { kind: 'tell' }>, at: Instant): void {
    if (effect.kind === 'send') this.show(effect, at)
    else this.amend(effect.of, effect.text)
  }

  private show({ id, message, urgency }: Extract<Effect, { kind: 'send' }>, at: Instant): void {
    this.screen.push({ effect: id, at, text: message.text, buttons: message.buttons.flat(), urgency })
  }

  private amend(of: EffectId, text: string): void {
    this.screen = this.screen.map((shown) => (shown.effect === of ? { ...shown, text, buttons: [] } : shown))
  }
}

function render(shown: Shown | undefined): string {
  if (shown === undefined) return '(nothing)'
  const labels = shown.buttons.map(({ label }) => `[${label}]`).join(' ')
  return labels === '' ? shown.text : `${shown.text}\n${labels}`
}
