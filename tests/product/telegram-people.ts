// The people of a clinic on Telegram and the steps that most tests begin with.
import { writeFileSync } from 'node:fs'
import { onTestFinished } from 'vitest'
import type { Chart } from '#src/chart/chart.ts'
import type { Instant } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import { TelegramClinic } from '#tests/support/telegram-clinic.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'

export const therapist = 900
export const colleague = 901
export const client = 500
/** Long enough not to stand in a digest by chance. */
export const stranger = 7_340_196_852

/** A Monday, 12:00 in Dublin; the plan to try has its sessions on Monday, Wednesday and Friday at 18:00 there. */
export const mondayNoon: Instant = Date.parse('2026-06-01T12:00:00+01:00')
export const mondaySession: Instant = Date.parse('2026-06-01T18:00:00+01:00')

export async function openClinic(folder?: string): Promise<TelegramClinic> {
  const clinic = new TelegramClinic(folder ?? (await makeTemporaryFolder()), mondayNoon)
  onTestFinished(() => clinic.close())
  await clinic.start()
  return clinic
}

/** Keeps what was said, for whoever wants to read a whole conversation. */
export function keepExchange(clinic: TelegramClinic): void {
  const file = process.env['EXCHANGE_FILE']
  if (file !== undefined) writeFileSync(file, clinic.exchange.text())
}

/** The first therapist sends the code and answers what is asked. */
export async function settleIn(clinic: TelegramClinic): Promise<void> {
  await clinic.say(therapist, clinic.claim ?? 'no code was printed')
  for (const answer of ['Maren Holt', 'Europe/Dublin', 'mon-fri', '08:00-18:00']) await clinic.say(therapist, answer)
}

/** A colleague comes in by the link that the therapist was given. */
export async function inviteColleague(clinic: TelegramClinic): Promise<void> {
  await clinic.say(therapist, 'invite')
  const [, token] = /start=([\w-]+)/.exec(clinic.lastTo(therapist).text) ?? []
  await clinic.say(colleague, `/start ${token}`)
  for (const answer of ['Idris Vane', 'Europe/Dublin', 'every day', '07:00-22:00']) await clinic.say(colleague, answer)
}

/** The client opens the invitation and agrees to everything. */
export async function joinClient(clinic: TelegramClinic, plan?: Plan): Promise<void> {
  const { token } = await clinic.enrol(plan)
  await clinic.say(client, `/start ${token}`)
  await clinic.press(client, 'Go on')
  for (const _question of ['agree', 'zone', 'time']) await clinic.press(client, 'Yes')
}

/** From the reminder to the first set's instructions; after an earlier session its pains are asked first. */
export async function goToFirstSet(clinic: TelegramClinic, at: Instant = mondaySession): Promise<void> {
  await clinic.advanceTo(at)
  await clinic.press(client, 'Ready')
  await clinic.press(client, 'None of these')
  while (clinic.lastTo(client).buttons.some(({ label }) => label === '10')) await clinic.press(client, '1')
  await clinic.press(client, 'Done')
}

/** Presses through the questions that lift a lock. */
export async function clearLock(clinic: TelegramClinic): Promise<void> {
  await clinic.press(therapist, 'I have spoken with the client')
  await clinic.press(therapist, 'Clear the lock …')
  await clinic.press(therapist, 'Seen in person')
  await clinic.say(therapist, 'Examined today, no sign left.')
  await clinic.press(therapist, 'The usual restart')
}

/** A clinic with its therapist and one client, who has agreed. */
export async function openStaffedClinic(): Promise<TelegramClinic> {
  const clinic = await openClinic()
  await settleIn(clinic)
  await joinClient(clinic)
  return clinic
}

/** The only client's record. */
export async function chartOf(clinic: TelegramClinic): Promise<Chart> {
  const [head, ...others] = await clinic.store.heads('chart')
  if (!head || others.length > 0) throw new Error(`${others.length + 1} charts instead of one`)
  const chart = await clinic.store.read<Chart>(head.id)
  if (chart === null) throw new Error('the chart is gone')
  return chart
}
