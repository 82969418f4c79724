// Alerts over Telegram where a line or a person is not there, and what an operator sees of it beside the running process.
import { describe, expect, it } from 'vitest'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { findStatus, type Status } from '#src/commands/status/find-status.ts'
import { plain } from '#src/stores/cipher.ts'
import { readEnvelopes } from '#src/stores/lowdb/read-envelopes.ts'
import { product, type TelegramClinic } from '#tests/support/telegram-clinic.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { client, colleague, inviteColleague, joinClient, mondayNoon, openClinic, settleIn, therapist } from './telegram-people.ts'

const secondMs = 1000
const words = 'my left hand has gone numb and tingly'
const title = '⚠ URGENT, same day – Orla Tiernan'
const blocked = { kind: 'refuse', code: 403, description: 'Forbidden: bot was blocked by the user' } as const
const dropped = { kind: 'drop' } as const
const accepted = { kind: 'accept' } as const

/** Monday noon, with both therapists on duty. */
async function openWithTwo(): Promise<{ clinic: TelegramClinic; folder: string }> {
  const folder = await makeTemporaryFolder()
  const clinic = await openClinic(folder)
  await settleIn(clinic)
  await inviteColleague(clinic)
  await joinClient(clinic)
  return { clinic, folder }
}

/** As the command finds it, while the process has the folder. */
async function statusOf(clinic: TelegramClinic, folder: string): Promise<Status> {
  const at = clinic.clock.now()
  const waiting = [...clinic.app.delivery.waiting()]
  const envelopes = (await readEnvelopes(folder, documentMigrations, plain)) ?? []
  return findStatus({ documents: envelopes, running: { format: 1, at, isStopped: false, waiting, heard: [] }, escalation: product.content.triage.escalation, at, machineAt: at })
}

function firstLines(clinic: TelegramClinic, chat: number, since: number): readonly string[] {
  return clinic.sent().slice(since).filter((sent) => sent.chat === chat).map(({ text }) => text.split('\n')[0] ?? '')
}

/** In small steps, since what is written on the way takes its time on a real disk. */
async function passTo(clinic: TelegramClinic, seconds: number, step = 1): Promise<void> {
  while (clinic.clock.now() < mondayNoon + seconds * secondMs) await clinic.advanceTo(Math.min(clinic.clock.now() + step * secondMs, mondayNoon + seconds * secondMs))
}

describe('an alert whose therapists have both blocked the chat', () => {
  it('is told to the client at once, is in the log by its document alone, and needs a person', async () => {
    const { clinic, folder } = await openWithTwo()
    clinic.api.plan('sendMessage', accepted, blocked, blocked)
    const told = await clinic.during(client, () => clinic.say(client, words))

    expect(told.at(-1)?.text).toBe('I cannot reach anybody at your clinic right now. Do not wait for them. Call 020 913 0104 now. If it gets worse, call 112 at once.')
    const lines = clinic.log.lines.filter(({ event }) => event === 'nobody-reached')
    const [head] = await clinic.store.heads('chart')
    expect(lines).toEqual([{ level: 'error', event: 'nobody-reached', fields: { document: head?.id } }])
    const { alerts, needsPerson, unreachable } = await statusOf(clinic, folder)
    expect(alerts).toEqual([{ client: head?.id, level: 'urgent', since: mondayNoon, isAcknowledged: false, isLate: false, unreached: 2, hasReachedNobody: true }])
    expect([needsPerson, unreachable.therapists.length, unreachable.clients]).toEqual([true, 2, []])
  })
})

describe('an alert while the line is down', () => {
  it('comes to the second contact after a minute, and to the therapist once the line is back', async () => {
    const { clinic, folder } = await openWithTwo()
    // To the therapist at 0, 1, 3, 7, 15 and 31 s; what follows goes through.
    clinic.api.plan('sendMessage', accepted, dropped, dropped, dropped, dropped, dropped, dropped)
    const before = clinic.sent().length
    await clinic.say(client, words)
    const since = clinic.sent().length
    await passTo(clinic, 59)
    const tooEarly = firstLines(clinic, colleague, before)
    const whileDown = await statusOf(clinic, folder)
    await passTo(clinic, 60)
    const atOnce = firstLines(clinic, colleague, before)
    await passTo(clinic, 130)

    expect([tooEarly, atOnce]).toEqual([[], ['Maren Holt may not have received this yet. It comes to you as well:']])
    expect(firstLines(clinic, therapist, since).at(-1)).toBe(title)
    expect(whileDown.undelivered).toEqual([{ channel: 'telegram', urgency: 'alert', count: 1, since: mondayNoon, isLate: false }])
    const after = await statusOf(clinic, folder)
    expect(after).toMatchObject({ undelivered: [], needsPerson: false })
  })

  it('for everybody is told to the client once a line carries it, and shows as undelivered meanwhile', async () => {
    const { clinic, folder } = await openWithTwo()
    clinic.api.plan('sendMessage', accepted, ...Array.from({ length: 60 }, () => dropped))
    await clinic.say(client, words)
    await passTo(clinic, 150)
    const whileDown = await statusOf(clinic, folder)
    await passTo(clinic, 3600, 60)

    expect(whileDown.undelivered.map(({ urgency, isLate }) => [urgency, isLate])).toEqual([['alert', true]])
    expect(whileDown.alerts.map(({ hasReachedNobody, unreached }) => [hasReachedNobody, unreached])).toEqual([[true, 2]])
    expect(whileDown.needsPerson).toBe(true)
    expect(clinic.lastTo(client).text).toContain('I cannot reach anybody at your clinic right now.')
    expect(clinic.log.events().filter((event) => event === 'alert-delayed').length).toBeGreaterThanOrEqual(2)
  })
})
