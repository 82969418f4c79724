// The whole product over Telegram: real content, flows and store, a virtual server at one end and a clock set by hand.
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { createApp, createTelegram, issueClaim, productOf, type App } from '#src/app.ts'
import { enrolPlan, type Enrolled } from '#src/commands/enrol-plan.ts'
import { createHearing, type Hearing } from '#src/commands/start/hearing.ts'
import { readInputFile } from '#src/commands/read-input-file.ts'
import { readPlan } from '#src/content/read-plan.ts'
import type { Instant } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { Store } from '#src/ports/store.ts'
import { plain, type Cipher } from '#src/stores/cipher.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import type { Update } from 'grammy/types'
import { ManualClock } from './manual-clock.ts'
import { signedContent } from './signed-content.ts'
import { RecordingLog } from './recording-log.ts'
import { apiRoot, createTelegramApi, token, type TelegramApi } from './telegram-api.ts'
import { TelegramExchange, type Sent } from './telegram-exchange.ts'
import { pressUpdate, textUpdate } from './telegram-updates.ts'
import { createVirtualWait, type VirtualWait } from './virtual-wait.ts'

/** Outside the demo: somebody has signed the triage content as it is. */
export const product = productOf(signedContent)
const planFile = 'content/plans/extension.yaml'
export const tryPlan: Plan = readPlan(readInputFile(planFile), planFile, product.content)
/** `timeless`: no time passes on the line, and nothing is held to the network's pace. `timed`: it has the clinic's clock. */
export type LineTime = 'timeless' | 'timed'
/** More instants at which something falls due, on the way to another, would be a timer that never goes. */
const mostStops = 2000

export class TelegramClinic {
  readonly api: TelegramApi
  readonly clock: ManualClock
  readonly log = new RecordingLog()
  /** The time of a `timeless` line, in which long polls wait. */
  readonly lineTime: VirtualWait = createVirtualWait()
  readonly exchange: TelegramExchange
  /** The code with which the first therapist claims the clinic, as the last start printed it. */
  claim: string | null = null
  store!: Store
  app!: App
  hearing: Hearing | null = null
  private readonly folder: string
  private readonly cipher: Cipher
  private readonly line: LineTime
  private updateId = 100
  private isClosed = false

  constructor(folder: string, now: Instant, cipher: Cipher = plain, line: LineTime = 'timeless') {
    this.folder = folder
    this.cipher = cipher
    this.line = line
    this.clock = new ManualClock(now)
    this.exchange = new TelegramExchange(tryPlan.zone)
    this.api = createTelegramApi(this.line === 'timed' ? this.clock : this.lineTime)
    this.api.serve('sendMessage', 'editMessageText', 'answerCallbackQuery')
  }

  /**
   * Begins as the command does, over whatever the folder holds. Where it is given when the network was last heard, silences are
   * noticed from then on, by the clinic's clock.
   */
  async start(lastHeardAt: Instant | null = null): Promise<void> {
    const { clock, log } = this
    this.store = createLowdbStore({ folder: this.folder, steps: documentMigrations, cipher: this.cipher })
    await this.store.open()
    const heard = { onHeard: () => this.hearing?.heard(), onCaughtUp: () => this.hearing?.caughtUp() }
    const pace = this.line === 'timed' ? { wait: clock.wait } : { wait: this.lineTime.wait, limits: null }
    const channel = createTelegram({ token, apiRoot, webhook: null }, log, { ...pace, ...heard })
    this.app = createApp({ product, store: this.store, channels: [channel], clock, log, wait: clock.wait, isDeaf: () => this.hearing?.isDeaf() ?? false })
    const { store, app } = this
    const parts = { channel: channel.name, store, delivery: app.delivery, clock, wait: clock.wait, log }
    this.hearing = lastHeardAt === null ? null : createHearing({ ...parts, lastHeardAt })
    this.claim = await issueClaim(this.store, this.app.delivery)
    await this.app.start((error) => {
      throw error
    })
    await this.settle()
  }

  async stop(): Promise<void> {
    await this.hearing?.stop()
    await this.app.stop()
    await this.store.close()
  }

  async restart(): Promise<void> {
    await this.stop()
    await this.start()
  }

  /** Off for a while, then on again; the network is asked at once, and what it kept is read. */
  async restartAfter(ms: number): Promise<void> {
    const lastHeardAt = this.clock.now()
    await this.stop()
    this.clock.jump(ms)
    await this.start(lastHeardAt)
    await this.until(() => this.hearing?.at() === this.clock.now())
    await this.settle()
  }

  async close(): Promise<void> {
    this.isClosed = true
    await this.stop()
    this.api.close()
  }

  enrol(plan: Plan = tryPlan): Promise<Enrolled> {
    return enrolPlan(plan, this.store, this.app.delivery, this.clock.now())
  }

  nextUpdateId(): number {
    this.updateId += 1
    return this.updateId
  }

  /** Updates arrive at the server; resolves when everything that follows from them is over. */
  async push(...updates: Update[]): Promise<void> {
    this.api.push(...updates)
    await this.settle()
  }

  say(chat: number, text: string): Promise<void> {
    this.exchange.note(chat, text, this.clock.now())
    return this.push(textUpdate(this.nextUpdateId(), chat, text))
  }

  /** Presses the newest button of this label in a chat, whether or not it should still be there. */
  press(chat: number, label: string): Promise<void> {
    this.exchange.note(chat, `[${label}]`, this.clock.now())
    return this.push(pressUpdate(this.nextUpdateId(), chat, this.dataOf(chat, label)))
  }

  dataOf(chat: number, label: string): string {
    const buttons = this.sentTo(chat).flatMap((sent) => sent.buttons)
    const found = buttons.findLast((button) => button.label === label)
    if (!found) throw new Error(`no button "${label}" in chat ${chat}; there are: ${buttons.map((button) => button.label).join(', ')}`)
    return found.data
  }

  /** Every message of its own, to whomever, oldest first. */
  sent(): readonly Sent[] {
    return this.api.calls.flatMap(({ method, payload }) => (method === 'sendMessage' ? [readSent(payload)] : []))
  }

  sentTo(chat: number): readonly Sent[] {
    return this.sent().filter((sent) => sent.chat === chat)
  }

  lastTo(chat: number): Sent {
    const last = this.sentTo(chat).at(-1)
    if (!last) throw new Error(`nothing was sent to chat ${chat}`)
    return last
  }

  /** What a chat gets while something is done. */
  async during(chat: number, act: () => Promise<void>): Promise<readonly Sent[]> {
    const before = this.sentTo(chat).length
    await act()
    return this.sentTo(chat).slice(before)
  }

  /** Moves the clock stop by stop, so that everything due on the way fires at its own time. */
  async advanceTo(instant: Instant): Promise<void> {
    for (let stop = 0; stop < mostStops; stop += 1) {
      const due = await this.store.nextDueAt()
      if (due === null || due > instant) break
      await this.moveTo(due)
    }
    await this.moveTo(instant)
  }

  /** Lets time pass from one wait to the next, each with all that follows from it. */
  async passTo(instant: Instant): Promise<void> {
    for (let ms = this.clock.waits[0]; ms !== undefined && this.clock.now() + ms <= instant; ms = this.clock.waits[0]) {
      await this.clock.advance(ms)
      await this.settle()
    }
    await this.clock.advance(Math.max(0, instant - this.clock.now()))
    await this.settle()
  }

  private async moveTo(instant: Instant): Promise<void> {
    await this.clock.advance(Math.max(0, instant - this.clock.now()))
    await this.app.delivery.runDue()
    await this.settle()
  }

  /** Resolves when the server has been told that everything was handled, and nothing is left to do before time passes. */
  async settle(): Promise<void> {
    await this.until(() => this.isLineAtRest())
    await this.app.delivery.idle()
    // On a timed line calls are repeated until they come through; what arrived is the server's to say.
    if (this.line === 'timeless') this.exchange.take(this.sent(), this.clock.now())
  }

  /** On a timed line the channel holds a poll, or waits to try again after one that broke. */
  private isLineAtRest(): boolean {
    const { broken, lastPoll, queue } = this.api
    if (this.line === 'timeless') return queue.length === 0
    if (lastPoll === 'broken') return this.log.events().filter((event) => event === 'telegram-call-failed').length === broken
    return lastPoll === 'held' && queue.length === 0
  }

  /** Not bounded by turns: a busy disk may take its time, and the test's own time limit ends a wait in vain. */
  private async until(condition: () => boolean): Promise<void> {
    while (!condition()) {
      if (this.isClosed) throw new Error('the clinic was closed while a test waited for it')
      await new Promise((resolve) => setImmediate(resolve))
    }
  }
}

function readSent(payload: unknown): Sent {
  const { chat_id: chat, text, reply_markup: markup } = payload as { chat_id: number; text: string; reply_markup?: Keyboard }
  const buttons = (markup?.inline_keyboard ?? []).flat().map((button) => ({ label: button.text, data: button.callback_data }))
  return { chat, text, buttons }
}

interface Keyboard {
  readonly inline_keyboard: readonly (readonly { readonly text: string; readonly callback_data: string }[])[]
}
