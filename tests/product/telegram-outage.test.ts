// An hour without the network during ten sessions and two signs of harm, message by message. What is played is written into
// docs/outage.md; `npx vitest run tests/product/telegram-outage.test.ts -u` writes it anew after a change that was meant.
// The network keeps presses for 150 s and messages for 24 h (github.com/tdlib/telegram-bot-api).
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { telegramLimits } from '#src/channels/telegram/telegram-channel.ts'
import type { Entry } from '#src/domain/entry.ts'
import { breaksAt, playWithNetwork, playWithoutNetwork, pressedInVain, returnsAt, settledAt, type Evening } from './outage/hour.ts'
import { idris, maren, noLegs, numbHand, trainees } from './outage/people.ts'
import { writePage } from './outage/page.ts'
import type { Received } from './outage/play.ts'

const away = 'I was away for a while. If you pressed a button, it may not have reached me. Here is the question again.'
const folders: string[] = []
let outage: Evening
let usual: Evening

beforeAll(async () => {
  outage = await playWithoutNetwork(await makeFolder())
  usual = await playWithNetwork(await makeFolder())
})

afterAll(() => Promise.all(folders.map((folder) => rm(folder, { recursive: true, force: true }))))

async function makeFolder(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'nuchal-'))
  folders.push(folder)
  return folder
}

function chatOf(name: string): number {
  return trainees.find((one) => one.name === name)!.chat
}

/** What somebody got between the break and the moment when all that was owed had gone out. */
function gotAfterwards(chat: number): readonly Received[] {
  return outage.play.receivedBy(chat).filter(({ at }) => at >= breaksAt && at < settledAt)
}

/** The last line that asks or says something, and whether the notice went before it. */
function inShort({ text }: Received): string {
  const lines = text.split('\n').filter((line) => line !== '')
  const line = lines.find((one) => /^Set \d/.test(one)) ?? lines.at(-1) ?? ''
  return `${text.startsWith(away) ? 'again: ' : ''}${line.split(/[.?:–]/u)[0]?.trim()}`
}

function entriesOf({ records }: Evening, name: string, ...kinds: readonly string[]): readonly unknown[] {
  return (records.get(name) ?? []).filter(({ kind }) => kinds.includes(kind)).map(withoutSession)
}

/** Sessions have ids of their own in each play. */
function withoutSession({ kind, data: { session: _, ...data } }: Entry): unknown {
  return { kind, data }
}

describe('an hour without the network', () => {
  it('loses the presses of those who pressed more than 150 s before its end, and nothing else', () => {
    const { acts, clinic } = outage.play
    const lost = acts.filter(({ update }) => clinic.api.forgotten.some(({ update_id: id }) => id === update)).map(({ chat }) => chat)
    expect(lost).toEqual(['Ines Carrow', 'Tomas Ekwall', 'Noor Lindqvist'].map(chatOf))
    expect(new Set(lost)).toEqual(new Set([...pressedInVain].map(chatOf)))
  })

  it.each([
    ['Orla Tiernan', ['How many more could you have done, just as clean']],
    ['Noor Lindqvist', ['again: Hello Noor Lindqvist']],
    ['Tomas Ekwall', ['again: Set 2 of 3']],
    ['Ines Carrow', ['again: Did your chin, shoulders or body move to help']],
    ['Bram Oduya', ['Did your chin, shoulders or body move to help']],
    ['Sefa Marchetti', ['again: One last thing']],
    ['Lior Abendroth', ['If you get sudden weakness, a numb face, trouble with sight, speech or swallowing, or the worst headache of your life']],
    ['Petra Halloway', ['Have you or somebody with you called 112', 'I cannot reach anybody at your clinic right now']],
    ['Ayo Brandvold', ['Set 3 of 3']],
    ['Mirthe Solheim', ['again: Set 1 of 3']],
    ['Jonas Achterberg', ['Hello Jonas Achterberg']],
  ])('asks %s once what is to be asked, with the notice only where a press may be lost', (name, expected) => {
    const got = gotAfterwards(chatOf(name))
    expect(got.map(inShort)).toEqual(expected)
    expect(got.filter(({ at }) => at < returnsAt)).toEqual([])
  })

  it('leaves no old buttons where a question was asked again', () => {
    const { clinic } = outage.play
    const edits = clinic.api.taken.filter(({ at, method }) => method === 'editMessageText' && at >= returnsAt && at < settledAt)
    const edited = edits.map(({ payload }) => (payload as { message_id: number }).message_id)
    const askedAgain = [...pressedInVain, 'Sefa Marchetti', 'Mirthe Solheim'].map(chatOf)
    const old = askedAgain.map((chat) => outage.play.receivedBy(chat).findLast(({ at }) => at < breaksAt)?.message)
    expect(old.map((message) => edited.filter((id) => id === message).length)).toEqual([1, 1, 1, 1, 1])
  })

  it('takes nobody for silent: no session is paused, and no therapist is told that somebody is', () => {
    const paused = trainees.flatMap(({ name }) => entriesOf(outage, name, 'session-paused'))
    const texts = outage.play.received().map(({ text }) => text)
    expect(paused).toEqual([])
    expect(texts.filter((text) => /Are you all right\?|Silent in the middle of a set|belongs to an earlier question/.test(text))).toEqual([])
  })

  it('brings the therapist both alerts before anything that is about neither, at once', () => {
    const got = gotAfterwards(maren)
    const titles = got.map(({ text }) => text.split('\n')[0])
    const late = '⚠ Petra Halloway may not have received what was sent about the alert: the network has not taken it for a minute. Please phone the client now.'
    expect(titles).toEqual(['⚠ EMERGENCY – Petra Halloway', late, late, '⚠ URGENT, same day – Lior Abendroth'])
    expect(got.map(({ at }) => at - returnsAt)).toEqual([1000, 1000, 1000, 1000])
    expect(got[0]?.text).toContain(`Client’s words: “${noLegs}”`)
    expect(got[0]?.text).toContain('When: Mon 1 Jun, 18:10 (Europe/Dublin)')
    expect(got[3]?.text).toContain(`Client’s words: “${numbHand}”`)
  })

  it('passes the alert that was owed on to the second contact as well, and says why', () => {
    const titles = gotAfterwards(idris).map(({ text }) => text.split('\n').slice(0, 2))
    expect(titles).toContainEqual(['Maren Holt may not have received this yet. It comes to you as well:', '⚠ EMERGENCY – Petra Halloway'])
    expect(titles.filter(([, title]) => title === '⚠ EMERGENCY – Petra Halloway')).toHaveLength(1)
  })

  it.each(trainees.map(({ name }) => name))('stores each answer of %s once and in order, and decides as if nothing had been', (name) => {
    const stored = entriesOf(outage, name, 'set', 'morning', 'decision')
    expect(stored).toEqual(entriesOf(usual, name, 'set', 'morning', 'decision'))
    expect(stored.filter((entry) => (entry as Entry).kind === 'decision')).toHaveLength(1)
  })

  it('ends within the network’s pace', () => {
    const { atMost, withinMs } = telegramLimits.overall
    const times = outage.play.clinic.api.taken.filter(({ method }) => method !== 'answerCallbackQuery').map(({ at }) => at).toSorted((a, b) => a - b)
    const tooMany = times.filter((at, index) => index >= atMost && at - times[index - atMost]! < withinMs)
    expect(times.length).toBeGreaterThan(200)
    expect(tooMany).toEqual([])
  })

  it('is seen by whoever runs the clinic within five minutes', () => {
    expect(outage.sights.map(({ health }) => health.slice(0, 3))).toEqual(['200', '200', '503', '503', '503', '200'])
    expect(outage.sights.map(({ needsPerson }) => needsPerson)).toEqual([false, true, true, true, true, true])
    expect(outage.sights.at(-1)?.status).toContain('Undelivered: 0')
  })

  it('is written down in docs/outage.md as it was played', async () => {
    await expect(writePage(outage)).toMatchFileSnapshot('../../docs/outage.md')
  })
})
