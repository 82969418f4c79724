// After a silence of the network: a question whose answer may be lost is asked again, once, and not in the night.
import { describe, expect, it } from 'vitest'
import type { Lost } from '#src/chart/event.ts'
import { brandAs, type DocumentId, type EffectId } from '#src/domain/identifier.ts'
import type { Person } from '#tests/support/person.ts'
import { chartId, colleagues, inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'

const secondMs = 1000
const presses = 'I was away for a while. If you pressed a button, it may not have reached me. Here is the question again.'

/** What has come since the last reading, without the buttons. */
function texts(person: Person): readonly string[] {
  const read = person.read()
  return read === '' ? [] : read.split('\n---\n').map((text) => text.replace(/\n(\[[^\n]*\])+$/u, ''))
}

/** The network is heard again now, after so many seconds. */
function hearAgain(clinic: JoinedClinic, seconds: number, lost: Lost = 'presses', document: DocumentId = chartId, unsent: readonly EffectId[] = []): void {
  const until = clinic.rig.now
  clinic.rig.submit(document, { kind: 'unheard', since: until - seconds * secondMs, until, lost, unsent })
}

describe('a question that was open while presses were lost', () => {
  it('is asked again with new buttons, and the old ones are taken away', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    const before = clinic.client.messages.at(-1)!
    clinic.rig.pass({ minutes: 10 })
    clinic.client.skip()
    hearAgain(clinic, 600)

    const again = texts(clinic.client)
    expect(again).toEqual([`${presses}\n\n${before.text}`])
    expect(clinic.client.messages.filter(({ buttons }) => buttons.length > 0).map(({ text }) => text)).toEqual(again)
    clinic.client.press('Ready')
    expect(clinic.asks).toBe('session.screen')
  })

  it('and was asked again meanwhile, or only just before, is not asked once more', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.rig.pass({ minutes: 10 })
    clinic.client.write('help')
    clinic.client.skip()
    hearAgain(clinic, 600)
    clinic.rig.pass({ seconds: 150 })
    hearAgain(clinic, 750)
    const asked = texts(clinic.client)
    clinic.rig.pass({ seconds: 1 })
    hearAgain(clinic, 751)

    expect(asked).toEqual([])
    expect(texts(clinic.client)).toHaveLength(1)
  })

  it('and is still on its way to the client is not asked a second time', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.rig.pass({ minutes: 60 })
    clinic.client.skip()
    const { effect } = clinic.chart().prompt!
    hearAgain(clinic, 3600, 'presses', chartId, [effect])
    const onItsWay = texts(clinic.client)
    hearAgain(clinic, 3601, 'presses', chartId, [brandAs<EffectId>('another')])

    expect(onItsWay).toEqual([])
    expect(texts(clinic.client)).toHaveLength(1)
  })

  it('goes on waiting for silence in a set from then on', () => {
    const clinic = inFirstSet()
    clinic.rig.pass({ minutes: 3 })
    hearAgain(clinic, 180)
    const asked = texts(clinic.client).length
    clinic.rig.pass({ minutes: 5 })

    expect(asked).toBe(1)
    expect(texts(clinic.client)).toEqual([])
    expect(clinic.asks).toBe('session.set')
  })

  it('and that was open for a day before is left alone', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.skip()
    // No other question takes its place.
    clinic.rig.store({ ...clinic.chart(), timers: [] })
    clinic.rig.moveTo('2026-01-06T18:10:00Z')
    hearAgain(clinic, 600)
    const atADay = texts(clinic.client).length
    clinic.rig.moveTo('2026-01-07T18:20:01Z')
    hearAgain(clinic, 600)

    expect(atADay).toBe(1)
    expect(texts(clinic.client)).toEqual([])
    expect(clinic.asks).toBe('session.ready')
  })

  it('waits for the end of the quiet hours, and is not asked then if it is answered or gone', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    const { quiet } = clinic.chart().plan!.schedule
    clinic.rig.moveTo(`2026-01-05T${quiet.from}:00Z`)
    clinic.client.skip()
    hearAgain(clinic, 3600)
    const atOnce = texts(clinic.client)
    const waiting = clinic.chart().timers.filter(({ kind }) => kind === 'ask-again')
    const other = inFirstSet()
    other.rig.moveTo(`2026-01-05T${quiet.from}:00Z`)
    hearAgain(other, 3600)
    other.client.write('stop').skip()
    clinic.rig.moveTo(`2026-01-06T${quiet.to}:00Z`)
    other.rig.moveTo(`2026-01-06T${quiet.to}:00Z`)

    expect(atOnce).toEqual([])
    expect(waiting.map(({ dueAt }) => dueAt)).toEqual([Date.parse(`2026-01-06T${quiet.to}:00Z`)])
    expect(texts(clinic.client).map((text) => text.split('\n')[0])).toContain(presses)
    expect(texts(other.client).filter((text) => text.startsWith(presses))).toEqual([])
  })

  it('whether help was called is asked again in the night', () => {
    const clinic = inFirstSet()
    clinic.client.write('I cannot feel my legs').skip()
    expect(clinic.asks).toBe('called.called')
    clinic.rig.store({ ...clinic.chart(), timers: [] })
    clinic.rig.moveTo('2026-01-05T23:30:00Z')
    hearAgain(clinic, 3600)

    expect(texts(clinic.client).map((text) => text.split('\n')[0])).toEqual([presses])
  })

  it('at a desk is asked again', () => {
    const clinic = new JoinedClinic()
    clinic.maren.write('enrol').skip()
    clinic.rig.pass({ minutes: 5 })
    hearAgain(clinic, 300, 'presses', colleagues.maren.desk)
    hearAgain(clinic, 300, 'presses', colleagues.idris.desk)

    expect(texts(clinic.maren).map((text) => text.split('\n')[0])).toEqual([presses])
    expect(texts(clinic.idris)).toEqual([])
  })
})

describe('a day of which messages may be lost', () => {
  const dayAway = 'I was away for more than a day. What you wrote to me in that time may be lost.'

  it('is told to client and therapists, with the number to call, and the open question is asked again', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    const question = clinic.client.messages.at(-1)!.text
    clinic.readAll()
    clinic.rig.sleepUntil('2026-01-06T18:30:00Z')
    clinic.readAll()
    hearAgain(clinic, 24.5 * 3600, 'everything')
    hearAgain(clinic, 24.5 * 3600, 'everything', colleagues.maren.desk)

    const [told, ...more] = texts(clinic.client)
    expect(more).toEqual([])
    expect(told).toContain(dayAway)
    expect(told).toContain(`In an emergency call ${clinic.chart().plan!.emergencyNumber} now.`)
    expect(told).toContain(question)
    expect(texts(clinic.maren).map((text) => text.slice(0, 31))).toEqual(['I was away for more than a day.'])
  })

  it('leaves a question alone that came just before, or is still on its way', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.rig.pass({ seconds: 1 })
    clinic.readAll()
    const { number, effect } = clinic.chart().prompt!
    hearAgain(clinic, 25 * 3600, 'everything')
    const justAsked = [texts(clinic.client).map((text) => text.startsWith(dayAway)), clinic.chart().prompt!.number]
    clinic.rig.pass({ minutes: 5 })
    hearAgain(clinic, 26 * 3600, 'everything', chartId, [effect])

    expect(justAsked).toEqual([[true], number])
    expect(texts(clinic.client)).toHaveLength(1)
    expect(clinic.chart().prompt!.number).toBe(number)
  })

  it('is told where no question is open, and in the quiet hours only when they end', () => {
    const clinic = new JoinedClinic()
    const { quiet } = clinic.chart().plan!.schedule
    clinic.rig.sleepUntil(`2026-01-06T${quiet.from}:00Z`)
    clinic.readAll()
    hearAgain(clinic, 25 * 3600, 'everything')
    const atOnce = texts(clinic.client)
    clinic.rig.moveTo(`2026-01-07T${quiet.to}:00Z`)

    expect(atOnce).toEqual([])
    expect(texts(clinic.client).filter((text) => text.startsWith(dayAway))).toHaveLength(1)
  })

  it('is not told to whoever has left', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('unsubscribe').press('Leave for good').write('no time').skip()
    expect(clinic.chart().standing).toBe('withdrawn')
    hearAgain(clinic, 25 * 3600, 'everything')
    expect(texts(clinic.client)).toEqual([])
  })
})
