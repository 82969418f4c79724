// The drill: a clinic is backed up beside its running process, its folder is lost, and it goes on from the backup.
import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { TelegramClinic } from '#tests/support/telegram-clinic.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { runHere } from '../commands/run-here.ts'
import { chartOf, client, goToFirstSet, joinClient, mondaySession, openClinic, settleIn, therapist } from './telegram-people.ts'

const minuteMs = 60_000
const hourMs = 60 * minuteMs

interface Drill {
  readonly clinic: TelegramClinic
  backUp(): Promise<void>
  /** The process ends and its folder is gone; another starts from the backup. */
  loseAndRestore(goneForMs?: number): Promise<void>
}

async function inFirstSet(): Promise<Drill> {
  const drill = await joined()
  await goToFirstSet(drill.clinic)
  return drill
}

/** Monday noon, with the first session at 18:00. */
async function joined(): Promise<Drill> {
  const folder = await makeTemporaryFolder()
  const file = join(await makeTemporaryFolder(), 'clinic.backup')
  const clinic = await openClinic(folder)
  await settleIn(clinic)
  await joinClient(clinic)
  const run = async (...args: readonly string[]): Promise<void> => {
    const { status, complaints } = await runHere(args, { DATA_DIR: folder })
    expect([status, complaints]).toEqual([0, []])
  }
  return {
    clinic,
    backUp: () => run('backup', '--to', file, '--replace'),
    async loseAndRestore(goneForMs = 0) {
      await clinic.stop()
      await clinic.clock.advance(goneForMs)
      await rm(folder, { recursive: true })
      await run('restore', '--from', file)
      await clinic.start()
    },
  }
}

async function asks(clinic: TelegramClinic): Promise<string> {
  const top = (await chartOf(clinic)).conversations.at(-1)
  return `${top?.flow}.${top?.state}`
}

async function answersOf(clinic: TelegramClinic): Promise<readonly string[]> {
  return (await clinic.store.entries((await chartOf(clinic)).id)).map(({ kind, id }) => `${kind} ${id}`)
}

describe('a clinic restored from a backup', () => {
  it('is at the question at which it was backed up, with every answer until then, and goes on to the end of the session', async () => {
    const { clinic, backUp, loseAndRestore } = await inFirstSet()
    await clinic.press(client, 'Done')
    await clinic.press(client, '1')
    const [question, answers] = [await asks(clinic), await answersOf(clinic)]
    await backUp()
    await clinic.press(client, 'No')
    await clinic.press(client, '3')
    await loseAndRestore()

    expect([await asks(clinic), await answersOf(clinic)]).toEqual([question, answers])
    await clinic.press(client, 'No')
    await clinic.press(client, '3')
    for (const _set of ['second', 'third']) for (const label of ['Done', '1', 'No', '3']) await clinic.press(client, label)
    const entries = await answersOf(clinic)
    expect(await asks(clinic)).toBe('session.effort')
    expect(new Set(entries).size).toBe(entries.length)
    expect(entries.slice(0, answers.length)).toEqual(answers)
  })

  it('tells the therapist of a red flag that was on its way, and holds the training', async () => {
    const { clinic, backUp, loseAndRestore } = await inFirstSet()
    await clinic.press(client, 'Done')
    clinic.api.plan('sendMessage', { kind: 'accept' }, { kind: 'drop' })
    await clinic.say(client, 'my left hand has gone numb and tingly')
    await backUp()
    const before = clinic.sentTo(therapist).length
    await loseAndRestore()

    const alerts = clinic.sentTo(therapist).slice(before).filter(({ text }) => text.startsWith('⚠ URGENT, same day – Orla Tiernan'))
    expect(alerts.length).toBe(1)
    expect(await chartOf(clinic)).toMatchObject({ lock: { level: 'urgent' }, session: null })
  })

  it('sends an alert again that was answered only after the backup, until somebody answers it anew', async () => {
    const { clinic, backUp, loseAndRestore } = await inFirstSet()
    await clinic.press(client, 'Done')
    await clinic.say(client, 'my left hand has gone numb and tingly')
    await backUp()
    await clinic.press(therapist, 'Acknowledge')
    await loseAndRestore()
    const again = await clinic.during(therapist, () => clinic.advanceTo(mondaySession + 3 * hourMs))

    expect(again.map(({ text }) => text.split('\n')[0])).toContainEqual(expect.stringMatching(/URGENT.*Orla Tiernan/))
    expect((await chartOf(clinic)).alerts).toMatchObject([{ acknowledged: null }])
  })

  it('passes over the reminders of the days it was gone, and asks for the next session at its time, once', async () => {
    const { clinic, backUp, loseAndRestore } = await joined()
    await backUp()
    const sentBefore = clinic.sentTo(client).length
    // Back on Wednesday at 23:00, with Monday's and Wednesday's sessions over.
    await loseAndRestore(59 * hourMs)
    const onReturn = clinic.sentTo(client).slice(sentBefore)
    const friday = await clinic.during(client, () => clinic.advanceTo(mondaySession + 4 * 24 * hourMs + 90 * minuteMs))

    expect(onReturn.filter(({ text }) => text.includes('It is time for your neck session'))).toEqual([])
    expect(friday.filter(({ text }) => text.includes('It is time for your neck session')).length).toBe(1)
  })
})
