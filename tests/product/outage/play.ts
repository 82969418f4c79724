// Plays what people do on a timed line, and keeps what they did and what reached them.
import type { Update } from 'grammy/types'
import type { Chart } from '#src/chart/chart.ts'
import type { Entry } from '#src/domain/entry.ts'
import type { Instant } from '#src/domain/identifier.ts'
import type { TakenCall } from '#tests/support/telegram-api.ts'
import type { TelegramClinic } from '#tests/support/telegram-clinic.ts'
import { pressUpdate, textUpdate } from '#tests/support/telegram-updates.ts'
import { idris, maren, planOf, type Answer, type Trainee } from './people.ts'

/** What somebody did. */
export interface Act {
  readonly at: Instant
  readonly chat: number
  readonly answer: Answer
  readonly update: number
}

/** A message as it arrived, and as it stands now. */
export interface Received {
  readonly at: Instant
  readonly chat: number
  /** The network's number of it. */
  readonly message: number
  readonly text: string
  readonly labels: readonly string[]
  readonly buttons: readonly { readonly label: string; readonly data: string }[]
}

/** Somebody reads before they answer; two messages an answer within a second would be held to the network's pace. */
const readsMs = 3000

export class Play {
  readonly acts: Act[] = []
  readonly clinic: TelegramClinic

  constructor(clinic: TelegramClinic) {
    this.clinic = clinic
  }

  /** Everything that reached somebody, in order; `buttons` are those that are still there. */
  received(): readonly Received[] {
    const messages = new Map<number, Received>()
    for (const call of this.clinic.api.taken) {
      if (call.method === 'sendMessage') messages.set(idOf(call), arrivedBy(call))
      const edited = call.method === 'editMessageText' ? messages.get(idOf(call)) : undefined
      if (edited !== undefined) messages.set(idOf(call), { ...edited, buttons: [] })
    }
    return [...messages.values()]
  }

  receivedBy(chat: number): readonly Received[] {
    return this.received().filter((message) => message.chat === chat)
  }

  /** The update that the server gets if this person does it now; nothing is sent yet. */
  update(chat: number, answer: Answer): Update {
    const id = this.clinic.nextUpdateId()
    this.acts.push({ at: this.clinic.clock.now(), chat, answer, update: id })
    return 'write' in answer ? textUpdate(id, chat, answer.write) : pressUpdate(id, chat, this.dataOf(chat, answer.press, answer.under ?? ''))
  }

  /** Somebody does something now. */
  async do(chat: number, ...answers: readonly Answer[]): Promise<void> {
    for (const answer of answers) {
      await this.clinic.push(this.update(chat, answer))
      await this.pass(readsMs)
    }
  }

  pass(ms: number): Promise<void> {
    return this.clinic.passTo(this.clinic.clock.now() + ms)
  }

  async settleIn(): Promise<void> {
    await this.write(maren, this.clinic.claim ?? 'no code was printed', 'Maren Holt', 'Europe/Dublin', 'every day', '08:00-22:00', 'invite')
    const [, token] = /start=([\w-]+)/.exec(this.receivedBy(maren).at(-1)?.text ?? '') ?? []
    await this.write(idris, `/start ${token}`, 'Idris Vane', 'Europe/Dublin', 'every day', '08:00-22:00')
  }

  async join(trainee: Trainee): Promise<void> {
    const { token } = await this.clinic.enrol(planOf(trainee))
    await this.write(trainee.chat, `/start ${token}`)
    await this.do(trainee.chat, { press: 'Go on' }, { press: 'Yes' }, { press: 'Yes' }, { press: 'Yes' })
  }

  async chartOf({ chat }: Pick<Trainee, 'chat'>): Promise<Chart> {
    const head = await this.clinic.store.findByContact({ channel: 'telegram', address: String(chat) })
    const chart = head === null ? null : await this.clinic.store.read<Chart>(head.id)
    if (chart === null) throw new Error(`chat ${chat} has no chart`)
    return chart
  }

  async entriesOf(trainee: Pick<Trainee, 'chat'>): Promise<readonly Entry[]> {
    return this.clinic.store.entries((await this.chartOf(trainee)).id)
  }

  private async write(chat: number, ...texts: readonly string[]): Promise<void> {
    await this.do(chat, ...texts.map((write) => ({ write })))
  }

  private dataOf(chat: number, label: string, under: string): string {
    const standing = this.receivedBy(chat).filter(({ text }) => text.includes(under)).flatMap(({ buttons }) => buttons)
    const found = standing.findLast((button) => button.label === label)
    if (!found) throw new Error(`no button "${label}" in chat ${chat}; there are: ${standing.map((button) => button.label).join(', ')}`)
    return found.data
  }
}

function idOf({ method, payload, result }: TakenCall): number {
  return method === 'sendMessage' ? (result as { message_id: number }).message_id : (payload as { message_id: number }).message_id
}

function arrivedBy(call: TakenCall): Received {
  const { at, payload } = call
  const { chat_id: chat, text, reply_markup: markup } = payload as { chat_id: number; text: string; reply_markup?: Keyboard }
  const buttons = (markup?.inline_keyboard ?? []).flat().map((button) => ({ label: button.text, data: button.callback_data }))
  return { at, chat, message: idOf(call), text, buttons, labels: buttons.map(({ label }) => label) }
}

interface Keyboard {
  readonly inline_keyboard: readonly (readonly { readonly text: string; readonly callback_data: string }[])[]
}
