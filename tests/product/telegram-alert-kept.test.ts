// A red flag is not lost, whatever fails after it was said.
import { cp } from 'node:fs/promises'
import { basename } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import type { Chart } from '#src/chart/chart.ts'
import type { Commit } from '#src/ports/store.ts'
import { refuse } from '#tests/support/telegram-api.ts'
import { TelegramClinic } from '#tests/support/telegram-clinic.ts'
import { textUpdate } from '#tests/support/telegram-updates.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { chartOf, client, goToFirstSet, openClinic, joinClient, openStaffedClinic, settleIn, therapist } from './telegram-people.ts'

const words = 'my left hand has gone numb'
const title = '⚠ URGENT, same day – Orla Tiernan'

/** Calls `committed` with what one event has made of a document, when it is durable and nothing has come of it yet. */
function watchCommit(clinic: TelegramClinic, event: string, committed: (commit: Commit) => Promise<void>): void {
  const apply = clinic.store.apply.bind(clinic.store)
  clinic.store.apply = async (id, eventId, decide) => {
    const made: Commit[] = []
    const result = await apply(id, eventId, (document) => {
      const commit = decide(document as never)
      if (commit !== null) made.push(commit)
      return commit
    })
    if (eventId === event) for (const commit of made) await committed(commit)
    return result
  }
}

const firstLine = ({ text }: { readonly text: string }): string => text.split('\n')[0] ?? ''

describe('a red flag', () => {
  it('is stored in one commit with the words that told it, the lock, and what is owed to the therapist', async () => {
    const clinic = await openStaffedClinic()
    await goToFirstSet(clinic)
    const commits: Commit[] = []
    const update = clinic.nextUpdateId()
    watchCommit(clinic, `telegram:update:${update}`, async (commit) => void commits.push(commit))
    await clinic.push(textUpdate(update, client, words))

    expect(commits).toHaveLength(1)
    const { document, entries, effects } = commits[0]!
    const chart = document as unknown as Chart
    expect([chart.alerts.length, chart.lock !== null, chart.session]).toEqual([1, true, null])
    expect(entries.filter(({ kind, data }) => kind === 'words' && data['text'] === words)).toHaveLength(1)
    expect(effects.filter((effect) => effect.kind === 'tell' && effect.to.startsWith('desk-')).length).toBeGreaterThan(0)
  })

  it('of a process that is killed right behind the commit reaches the therapist at the next start, once, though the network repeats it', async () => {
    const [folder, atKill] = [await makeTemporaryFolder(), await makeTemporaryFolder()]
    const clinic = await openClinic(folder)
    await settleIn(clinic)
    await joinClient(clinic)
    await goToFirstSet(clinic)
    const flag = textUpdate(clinic.nextUpdateId(), client, words)
    const isNoLock = (path: string): boolean => !basename(path).startsWith('lock.')
    // What stands on the disk at that instant is all that a kill leaves.
    watchCommit(clinic, `telegram:update:${flag.update_id}`, () => cp(folder, atKill, { recursive: true, filter: isNoLock }))
    await clinic.push(flag)
    await clinic.close()

    const next = new TelegramClinic(atKill, clinic.clock.now())
    onTestFinished(() => next.close())
    await next.start()
    const atStart = next.sentTo(therapist).map(firstLine)
    const again = await next.during(therapist, () => next.push(flag))

    expect(atStart).toEqual([title])
    expect(again).toEqual([])
    expect((await chartOf(next)).alertsRaised).toBe(1)
  })

  it('whose sending fails is tried again within a minute, every time, until it goes out', async () => {
    const clinic = await openStaffedClinic()
    await goToFirstSet(clinic)
    clinic.api.plan('sendMessage', ...Array.from({ length: 16 }, () => refuse(502, 'Bad Gateway')))
    await clinic.say(client, words)
    const triedAt = [0]
    for (let seconds = 5; seconds <= 300; seconds += 5) {
      const known = triesTo(clinic)
      await clinic.clock.advance(5_000)
      await clinic.settle()
      if (triesTo(clinic) > known) triedAt.push(seconds)
    }

    const pauses = triedAt.slice(1).map((at, index) => at - triedAt[index]!)
    expect(triesTo(clinic)).toBeGreaterThan(5)
    expect(pauses.filter((seconds) => seconds > 60)).toEqual([])
    // The last one was taken: nothing comes after it.
    expect(triedAt.at(-1)).toBeLessThan(300 - 60)
    expect(clinic.app.delivery.waiting()).toEqual([])
  })

  it('told a second time, in the same words, reaches the therapist a second time', async () => {
    const clinic = await openStaffedClinic()
    await goToFirstSet(clinic)
    await clinic.say(client, words)
    const again = await clinic.during(therapist, () => clinic.say(client, words))
    expect(again.filter(({ text }) => text.includes(words))).toHaveLength(1)
  })

  it('stays open, through a restart as well, until a person confirms it', async () => {
    const clinic = await openStaffedClinic()
    await goToFirstSet(clinic)
    await clinic.say(client, words)
    const sendings: number[] = []
    for (let restarts = 0; restarts < 3; restarts += 1) {
      await clinic.restart()
      const told = await clinic.during(therapist, () => clinic.advanceTo(clinic.clock.now() + 4 * 3_600_000))
      sendings.push(told.filter((sent) => sent.text.includes(title)).length)
    }
    await clinic.press(therapist, 'Acknowledge')
    await clinic.press(therapist, 'I have spoken with the client')
    const after = await clinic.during(therapist, () => clinic.advanceTo(clinic.clock.now() + 12 * 3_600_000))

    expect(sendings.filter((count) => count === 0)).toEqual([])
    expect(after.filter(({ text }) => text.includes(title))).toEqual([])
  })
})

function triesTo(clinic: TelegramClinic): number {
  return clinic.sentTo(therapist).filter((sent) => firstLine(sent) === title).length
}
