// One clinic of the crash script: the real process, the double as Telegram, invented people, and somebody who kills.
import { realWait } from '#src/app.ts'
import type { Instant } from '#src/domain/identifier.ts'
import type { Clock } from '#src/ports/clock.ts'
import { openBotApiDouble, type BotApiDouble, type CallMoment } from '#tests/support/bot-api/bot-api-double.ts'
import { prepareClinic, type Environment } from '#tests/support/prepared-clinic.ts'
import { clinicOpensAt, pages } from './calendar.ts'
import { createClient, type Client } from './client.ts'
import { createKeeper, mostFaults, type Keeper } from './keeper.ts'
import type { KillKind } from './kill-kinds.ts'
import { glimpse } from './records.ts'
import { isAskedOn } from './screen.ts'
import type { TestStore } from './test-store.ts'
import { createTherapist, type Therapist } from './therapist.ts'

const token = '4242:invented-for-tests'
const firstChat = 500
const therapistChat = 900
const plans = ['extension', 'extension', 'extension', 'all-directions']
const names = ['Orla Tiernan', 'Noor Lindqvist', 'Pell Harrow', 'Ines Corbet', 'Wim Averill', 'Tam Oakes']
const notesAnEvening = [1, 2, 3]
const lookEveryMs = 20
const glimpseEveryMs = 500
/** Nothing came for so long: what is still to come waits for its turn in the network's pace, which is kept by the clinic's clock. */
const patienceMs = 50
const hurryMs = 500
/** After so many of these without a call everything has arrived: a person waits a second for each message at most. */
const quietHurries = 6
/** Then it is the process that takes its time: a clock that ran on would let its polls lapse, and what people press. */
const mostHurries = 20
/** A person who has waited for so long, the process standing, waits in vain. */
const inVainMs = 60_000
/** In the machine's time, by which a process counts as dead: the project's own promise for what it owed. */
const takenOverMs = 60_000
/** Longer than any start, and than any pause between two polls. */
const standsAgainMs = 300_000

export interface ClinicOptions {
  readonly store: TestStore
  readonly seed: number
  readonly kills: number
  /** How many pages of the calendar; null: until the kills are done and the page is full. */
  readonly pages: number | null
  readonly killed: () => void
}

export interface Lived {
  readonly environment: Environment
  readonly double: BotApiDouble
  readonly clients: readonly Client[]
  readonly therapist: Therapist
  readonly pages: number
  readonly killsByKind: ReadonlyMap<KillKind, number>
  readonly faults: readonly string[]
  close(): Promise<void>
}

/** What those who live through it share. */
interface Scene {
  readonly environment: Environment
  readonly clock: Clock
  readonly double: BotApiDouble
  readonly keeper: Keeper
  readonly clients: readonly Client[]
  readonly therapist: Therapist
  readonly faults: string[]
  readonly line: { calledAt: number }
  moveTo(at: Instant): Promise<void>
  /** A little: what only the network's pace keeps back goes out. */
  hurry(): Promise<void>
}

export async function liveThrough({ store, seed, kills, pages: pagesToLive, killed }: ClinicOptions): Promise<Lived> {
  const time = { offsetMs: clinicOpensAt - Date.now() }
  const line = { calledAt: performance.now() }
  const faults: string[] = []
  const watchers: ((moment: CallMoment) => void)[] = []
  const clock = { now: (): Instant => Date.now() + time.offsetMs }
  const observe = (moment: CallMoment): void => {
    // A poll that brings nothing says nothing.
    if (moment.method !== 'getUpdates' || moment.updates > 0) line.calledAt = performance.now()
    for (const watcher of watchers) watcher(moment)
  }
  const double = await openBotApiDouble({ token, clock, wait: realWait, observe })
  const environment = { ...(await store.open()), TELEGRAM_BOT_TOKEN: token, TELEGRAM_API_ROOT: double.root }
  const enrolled = names.map((name, index) => ({ name, plan: plans[index % plans.length]! }))
  const invited = await prepareClinic(environment, enrolled, clock.now())
  const clients = names.map((name, index) => createClient({ name, chat: firstChat + index, seed, double }))
  const therapist = createTherapist(therapistChat, double)
  const loseNextPoll = (): void => double.plan('getUpdates', { kind: 'silence' })
  const keeper = createKeeper({ environment, store, seed, kills, offsetMs: time.offsetMs, faults, loseNextPoll, killed })
  watchers.push(bringMessages(double, [...clients, therapist]), keeper.note)
  const scene: Scene = {
    environment,
    clock,
    double,
    keeper,
    clients,
    therapist,
    faults,
    line,
    async moveTo(at) {
      // Forwards only, as time goes.
      time.offsetMs = Math.max(time.offsetMs, at - Date.now())
      line.calledAt = performance.now()
      await keeper.moveClock(time.offsetMs, true)
    },
    async hurry() {
      time.offsetMs += hurryMs
      await keeper.moveClock(time.offsetMs, false)
    },
  }
  await settleIn(scene, invited.map((one) => one.token))
  if (kills > 0) keeper.beginKilling()
  const lived = await liveDays(scene, (page) => (pagesToLive === null ? keeper.killsLeft === 0 : page >= pagesToLive))
  if (store.isShared) await takenOver(scene)
  await keeper.end()
  return { environment, double, clients, therapist, pages: lived, killsByKind: keeper.killsByKind, faults, close: () => double.close() }
}

/** Each new message comes to whom it is for, after the call, whose answer must not wait for what they do. */
function bringMessages(double: BotApiDouble, people: readonly (Client | Therapist)[]): (moment: CallMoment) => void {
  const seen = new Map<number, number>()
  return ({ method, phase, status, payload }) => {
    if (method !== 'sendMessage' || phase !== 'done' || status !== 200) return
    const person = people.find(({ chat }) => chat === payload['chat_id'])
    if (person === undefined) return
    const messages = double.messages(person.chat)
    const fresh = messages.slice(seen.get(person.chat) ?? 0)
    seen.set(person.chat, messages.length)
    setImmediate(() => fresh.forEach((message) => person.take(message)))
  }
}

async function settleIn(scene: Scene, invitations: readonly string[]): Promise<void> {
  const { double, keeper, clients, therapist } = scene
  for (const text of [await keeper.claim(), 'Maren Holt', 'Europe/Dublin', 'every day', '07:00-22:00']) {
    therapist.say(text)
    await quiet(scene)
  }
  for (const [index, invitation] of invitations.entries()) double.say(clients[index]!.chat, `/start ${invitation}`)
  await workOff(scene)
}

/** Gives how many pages were lived. */
async function liveDays(scene: Scene, isOver: (page: number) => boolean): Promise<number> {
  const { clients, faults } = scene
  let page = 0
  for (const { at, isEvening } of pages()) {
    if (isOver(page) || faults.length > mostFaults) return page
    page += 1
    for (const client of clients) client.turnPage(page)
    await scene.moveTo(at)
    await quiet(scene)
    if (!isEvening) continue
    for (const client of clients) for (const number of notesAnEvening) client.say(`tell my therapist: note ${page}-${number} of ${client.name}`)
    await workOff(scene)
  }
  return page
}

/** What those who were killed owed has been sent by the one that lives. */
async function takenOver(scene: Scene): Promise<void> {
  const end = performance.now() + takenOverMs
  while ((await glimpse(scene.environment))?.owed !== 0) {
    if (performance.now() > end) return void scene.faults.push('what a dead process owed was not sent within a minute')
    await realWait(glimpseEveryMs)
  }
  await quiet(scene)
}

/** The therapist does one thing after another until nothing is left. */
async function workOff(scene: Scene): Promise<void> {
  do await quiet(scene)
  while (scene.therapist.goOn())
}

/** Resolves when the process stands, has confirmed everything, and nobody waits for anything. */
async function quiet(scene: Scene): Promise<void> {
  const { double, keeper, clients, therapist, faults, line } = scene
  let standingSince = performance.now()
  let calledAt = line.calledAt
  let hurries = 0
  let stoodAt = performance.now()
  while (faults.length <= mostFaults) {
    const isStanding = keeper.isListening && double.isPolled
    if (isStanding) stoodAt = performance.now()
    else standingSince = performance.now()
    if (performance.now() - stoodAt > standsAgainMs) {
      faults.push('the process polls no more')
      return
    }
    const idleMs = performance.now() - Math.max(line.calledAt, standingSince)
    const waiting = [...clients, therapist].filter((person) => person.isWaiting)
    if (line.calledAt !== calledAt || !isStanding) hurries = 0
    calledAt = line.calledAt
    const isDone = isStanding && hurries >= quietHurries && double.pending().length === 0 && waiting.length === 0
    if (isDone && (await isSettled(scene))) return
    if (idleMs > inVainMs) {
      const who = waiting.map(({ chat }) => `chat ${chat}`).join(', ')
      faults.push(who === '' ? 'a timer stayed due, or a question did not come to the screen' : `nothing came to ${who} after what they did last`)
      return
    }
    await realWait(lookEveryMs)
    if (!isStanding || idleMs <= patienceMs || isDone || hurries >= mostHurries) continue
    await scene.hurry()
    hurries += 1
  }
}

/** Nothing is due, and every open question is on its screen: however slow the machine, nothing is still to come. */
async function isSettled({ environment, clock, double, clients }: Scene): Promise<boolean> {
  const stored = await glimpse(environment)
  if (stored === null || (stored.nextDueAt !== null && stored.nextDueAt <= clock.now())) return false
  return stored.charts.every((chart) => {
    const client = clients.find(({ name }) => name === chart.plan?.client.name)
    return client === undefined || isAskedOn(chart, double.messages(client.chat))
  })
}
