// The product as a process, with a Bot API server of our own on the other end of its line.
import { onTestFinished } from 'vitest'
import type { Chart } from '#src/chart/chart.ts'
import { openStore, realWait } from '#src/app.ts'
import { readConfig } from '#src/config.ts'
import type { Instant } from '#src/domain/identifier.ts'
import { openBotApiDouble, type BotApiDouble, type CallMoment } from '#tests/support/bot-api/bot-api-double.ts'
import { glimpse } from '#tests/crash/records.ts'
import { prepareClinic, type Environment } from '#tests/support/prepared-clinic.ts'
import { startProcess, type StartedProcess } from '#tests/support/started-process.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { client, mondayNoon, therapist } from './telegram-people.ts'

const token = '4242:secret-of-the-bot'

export interface ProcessClinic {
  readonly double: BotApiDouble
  readonly environment: Environment
  readonly process: StartedProcess
  start(): Promise<void>
  /** Moves the clocks of the process and of the server. */
  moveTo(at: Instant): Promise<void>
  moveBy(ms: number): Promise<void>
  /** Resolves when every timer that was due has been worked off. */
  nothingDue(): Promise<void>
  /** Resolves when a condition holds. */
  until(condition: () => boolean): Promise<void>
  /** Called in the middle of each call, until the test ends. */
  observe(observer: (moment: CallMoment) => void): void
  say(chat: number, text: string): Promise<void>
  press(chat: number, label: string): Promise<void>
  lastTo(chat: number): string
  /** The only client's record; the process must have ended. */
  readChart(): Promise<{ readonly chart: Chart; readonly sets: readonly unknown[] }>
}

export async function openProcessClinic(environment: Environment = {}): Promise<ProcessClinic & { readonly invitation: string }> {
  const folder = await makeTemporaryFolder()
  const time = { offsetMs: mondayNoon - Date.now() }
  const clock = { now: (): Instant => Date.now() + time.offsetMs }
  const observers: ((moment: CallMoment) => void)[] = []
  const double = await openBotApiDouble({ token, clock, wait: realWait, observe: (moment) => observers.forEach((observer) => observer(moment)) })
  const all = { PORT: '0', DATA_DIR: folder, TELEGRAM_BOT_TOKEN: token, TELEGRAM_API_ROOT: double.root, ...environment }
  const [invited] = await prepareClinic(all, [{ name: 'Orla Tiernan', plan: 'extension' }], clock.now())
  let process = startProcess(['start'], all, time.offsetMs)
  onTestFinished(async () => {
    process.kill('SIGKILL')
    await process.ended
    await double.close()
  })

  /** Another process runs at its own pace, so that nothing but looking again can tell; the test's own limit ends it. */
  async function until(condition: () => boolean): Promise<void> {
    while (!condition()) await realWait(20)
  }

  async function moveBy(ms: number): Promise<void> {
    time.offsetMs += ms
    await process.order({ kind: 'clock', offsetMs: time.offsetMs })
  }

  /** Everything that follows from it has arrived when the chat has something new. */
  async function answered(chat: number, act: () => void): Promise<void> {
    const before = double.messages(chat).length
    act()
    // The network's pace is kept by the clinic's clock: nobody has to wait for it.
    while (double.messages(chat).length === before) {
      await realWait(40)
      if (double.messages(chat).length === before) await moveBy(500)
    }
  }

  return {
    double,
    environment: all,
    invitation: invited?.token ?? '',
    get process() {
      return process
    },
    async start() {
      process = startProcess(['start'], all, time.offsetMs)
      await listening(process)
    },
    moveBy,
    moveTo: (at) => moveBy(at - clock.now()),
    until,
    async nothingDue() {
      for (;;) {
        const stored = await glimpse(all)
        if (stored !== null && (stored.nextDueAt ?? Infinity) > clock.now()) return
        await realWait(20)
      }
    },
    observe: (observer) => void observers.push(observer),
    say: (chat, text) => answered(chat, () => double.say(chat, text)),
    press: (chat, label) => answered(chat, () => double.press(chat, label)),
    lastTo: (chat) => double.messages(chat).at(-1)?.sent.text ?? '',
    async readChart() {
      const store = openStore(readConfig(all))
      await store.open()
      try {
        const [head] = await store.heads('chart')
        const chart = head === undefined ? null : await store.read<Chart>(head.id)
        if (head === undefined || chart === null) throw new Error('there is no chart')
        const sets = (await store.entries(head.id)).filter(({ kind }) => kind === 'set').map(({ data }) => data['report'])
        return { chart, sets }
      } finally {
        await store.close()
      }
    },
  }
}

export async function listening(process: StartedProcess): Promise<void> {
  if (!(await process.printed('listening to Telegram'))) throw new Error(`the process ended: ${process.err}`)
}

/** The therapist comes in by the code of the start, the client by the invitation. */
export async function openStaffedProcess(): Promise<ProcessClinic> {
  const clinic = await openProcessClinic()
  await listening(clinic.process)
  const code = await clinic.process.printed(/therapist: [0-9A-F]{10}/)
  if (!code) throw new Error('no code was printed')
  await clinic.say(therapist, /therapist: ([0-9A-F]{10})/.exec(clinic.process.out)?.[1] ?? '')
  for (const answer of ['Maren Holt', 'Europe/Dublin', 'mon-fri', '08:00-18:00']) await clinic.say(therapist, answer)
  await clinic.say(client, `/start ${clinic.invitation}`)
  await clinic.press(client, 'Go on')
  for (const _question of ['agree', 'zone', 'time']) await clinic.press(client, 'Yes')
  return clinic
}

/** From the reminder to the first set's instructions. */
export async function goToFirstSetOf(clinic: ProcessClinic, at: Instant): Promise<void> {
  const before = clinic.double.messages(client).length
  await clinic.moveTo(at)
  await clinic.until(() => clinic.double.messages(client).length > before)
  await clinic.press(client, 'Ready')
  await clinic.press(client, 'None of these')
  await clinic.press(client, '1')
  await clinic.press(client, 'Done')
}
