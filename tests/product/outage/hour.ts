// An hour without the network, and the same evening with it.
import type { Entry } from '#src/domain/entry.ts'
import type { Instant } from '#src/domain/identifier.ts'
import { plain } from '#src/stores/cipher.ts'
import { TelegramClinic } from '#tests/support/telegram-clinic.ts'
import { lookAt, type Sight } from './operator.ts'
import { maren, nameOf, noLegs, numbHand, trainees, type Answer, type Trainee } from './people.ts'
import { Play } from './play.ts'

const dayMs = 24 * 3_600_000
export const breaksAt = dublin('18:10:00')
export const returnsAt = dublin('19:10:00')
/** Everything that was owed has gone out, and nobody has gone on yet. */
export const settledAt = dublin('19:10:20')

/** A wall time in Dublin on the evening, in summer. */
function dublin(time: string): Instant {
  return Date.parse(`2026-06-01T${time}+01:00`)
}

const orla = trainee('Orla Tiernan')
const petra = trainee('Petra Halloway')
/** Of those that got through just before, nobody has been answered yet. */
const atTheBreak: readonly (readonly [Trainee, Answer])[] = [
  [orla, { press: 'No' }],
  [petra, { write: noLegs }],
]
const inTheHour: readonly (readonly [time: string, Trainee, Answer])[] = [
  ['18:10:20', trainee('Ines Carrow'), { press: 'No' }],
  ['18:12:00', trainee('Tomas Ekwall'), { press: 'Done' }],
  ['18:30:00', trainee('Lior Abendroth'), { write: numbHand }],
  ['18:35:00', trainee('Bram Oduya'), { write: '4' }],
  ['18:40:00', trainee('Noor Lindqvist'), { press: 'Ready' }],
  ['19:08:20', trainee('Ayo Brandvold'), { press: '3' }],
]
const looks = ['18:09:55', '18:12:00', '18:16:00', '18:40:00', '19:09:00', '19:10:20'].map(dublin)

/** Whose press the network gave up before anybody asked for it. */
export const pressedInVain: ReadonlySet<string> = new Set(['Ines Carrow', 'Tomas Ekwall', 'Noor Lindqvist'])
/** Whoever is asked something that takes no time goes on first, so that nobody seems silent for long. */
const goesOnFirst = [
  'Orla Tiernan', 'Bram Oduya', 'Ines Carrow', 'Ayo Brandvold', 'Tomas Ekwall',
  'Mirthe Solheim', 'Petra Halloway', 'Sefa Marchetti', 'Noor Lindqvist', 'Jonas Achterberg',
]
/** The same before the line breaks: such people come last. */
const comesFirst = [
  'Sefa Marchetti', 'Tomas Ekwall', 'Lior Abendroth', 'Petra Halloway', 'Mirthe Solheim',
  'Ayo Brandvold', 'Bram Oduya', 'Ines Carrow', 'Orla Tiernan',
]

/** What is left when an evening and the next morning are over. */
export interface Evening {
  readonly play: Play
  /** What the operator saw of it on the way. */
  readonly sights: readonly Sight[]
  /** Everybody's record, by name. */
  readonly records: ReadonlyMap<string, readonly Entry[]>
  /** Whose charts these are. */
  readonly ids: ReadonlyMap<string, string>
}

/** The line breaks at 18:10 and is back at 19:10; then everybody goes on where they were, and answers the next morning. */
export async function playWithoutNetwork(folder: string): Promise<Evening> {
  const sights: Sight[] = []
  return playEvening(folder, sights, (play) => playTheHour(play, sights))
}

/** The same answers of the same people, with the network there all the time. */
export async function playWithNetwork(folder: string): Promise<Evening> {
  return playEvening(folder, [], async (play) => {
    await play.clinic.passTo(breaksAt)
    for (const [{ chat }, answer] of atTheBreak) await play.do(chat, answer)
    for (const [, { name, chat }, answer] of inTheHour) if (!pressedInVain.has(name)) await play.do(chat, answer)
  })
}

async function playEvening(folder: string, sights: readonly Sight[], playMiddle: (play: Play) => Promise<void>): Promise<Evening> {
  const clinic = new TelegramClinic(folder, dublin('17:50:00'), plain, 'timed')
  try {
    await clinic.start(clinic.clock.now())
    const play = new Play(clinic)
    await playUntilTheBreak(play)
    await playMiddle(play)
    await playToTheEnd(play)
    const records = new Map<string, readonly Entry[]>()
    const ids = new Map<string, string>()
    for (const one of trainees) {
      records.set(one.name, await play.entriesOf(one))
      ids.set((await play.chartOf(one)).id, one.name)
    }
    return { play, sights, records, ids }
  } finally {
    await clinic.close()
  }
}

async function playTheHour(play: Play, sights: Sight[]): Promise<void> {
  const { clinic } = play
  const passTo = async (instant: Instant): Promise<void> => {
    for (const at of looks.filter((look) => look > clinic.clock.now() && look <= instant)) {
      await clinic.passTo(at)
      sights.push(await lookAt(clinic))
    }
    await clinic.passTo(instant)
  }
  await passTo(breaksAt)
  clinic.api.push(...atTheBreak.map(([{ chat }, answer]) => play.update(chat, answer)))
  clinic.api.setLine('down')
  await clinic.settle()
  for (const [time, { chat }, answer] of inTheHour) {
    await passTo(dublin(time))
    clinic.api.push(play.update(chat, answer))
  }
  await passTo(returnsAt)
  clinic.api.setLine('up')
  await passTo(settledAt)
}

/** Everybody answers what is left of their session, the therapist takes both alerts on; then the next morning and the next session. */
async function playToTheEnd(play: Play): Promise<void> {
  const { clinic } = play
  for (const { name } of [petra, trainee('Lior Abendroth')]) await play.do(maren, { press: 'Acknowledge', under: name })
  const acted = new Set([...atTheBreak.map(([{ name }]) => name), ...inTheHour.map(([, { name }]) => name)])
  const hasCounted = ({ name }: Trainee): boolean => acted.has(name) && !pressedInVain.has(name)
  await clinic.passTo(Math.max(clinic.clock.now(), dublin('18:45:10')))
  for (const one of goesOnFirst.map(trainee)) await play.do(one.chat, ...one.answers.slice(one.before + (hasCounted(one) ? 1 : 0)))
  await sleepUntil(play, dublin('09:30:00') + dayMs)
  await answerPains(play)
  // With its first answers the last session is decided.
  await sleepUntil(play, dublin('18:50:00') + 2 * dayMs)
  for (const { chat } of trainees) if (isAsked(play, chat, 'Ready')) await play.do(chat, { press: 'Ready' }, { press: 'None of these' })
  await answerPains(play)
}

/** Nothing happens meanwhile that matters here: the network is asked no more than it has to be. */
async function sleepUntil({ clinic }: Play, instant: Instant): Promise<void> {
  await clinic.stop()
  clinic.clock.jump(instant - clinic.clock.now())
  await clinic.start(clinic.clock.now())
  await clinic.passTo(instant + 2_000)
}

async function answerPains(play: Play): Promise<void> {
  for (const { chat } of trainees) while (isAsked(play, chat, '10')) await play.do(chat, { press: '1' })
}

function isAsked(play: Play, chat: number, label: string): boolean {
  return play.receivedBy(chat).at(-1)?.labels.includes(label) === true
}

/** Everybody has joined, and trains until it is about time for the line to break. */
async function playUntilTheBreak(play: Play): Promise<void> {
  await play.settleIn()
  for (const one of trainees) await play.join(one)
  await play.clinic.passTo(dublin('18:05:00'))
  for (const { chat, answers, before } of comesFirst.map(trainee)) await play.do(chat, ...answers.slice(0, before))
}

function trainee(name: string): Trainee {
  const found = trainees.find((one) => one.name === name)
  if (found === undefined) throw new RangeError(`nobody is called ${name}; ${nameOf(maren)} is no client`)
  return found
}
