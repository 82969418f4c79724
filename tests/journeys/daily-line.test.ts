// What waits for a therapist's duty, and the one message a day of what is still open.
import { describe, expect, it } from 'vitest'
import { chartId, colleagues, JoinedClinic } from '#tests/support/joined-clinic.ts'
import type { Person } from '#tests/support/person.ts'

const title = /^Open with (one client|\d+ clients):/

function dailyLines(person: Person): readonly { readonly at: string; readonly text: string }[] {
  return person.messages.filter(({ text }) => title.test(text)).map(({ at, text }) => ({ at: new Date(at).toISOString().slice(0, 16), text }))
}

/** A sign that is told and locks nothing, at 3 in the morning of Wednesday; Maren is on duty from 08:00. */
function routineAtNight(): JoinedClinic {
  const clinic = new JoinedClinic()
  clinic.rig.moveTo('2026-01-07T03:00:00Z')
  clinic.readAll()
  clinic.client.write('I have a fever')
  return clinic
}

describe('a routine alert', () => {
  it('at night is held until the duty begins, and locks nothing', () => {
    const clinic = routineAtNight()
    clinic.rig.moveTo('2026-01-07T07:59:00Z')
    const held = clinic.maren.read()
    clinic.rig.moveTo('2026-01-07T08:00:00Z')
    expect([held, clinic.chart().lock]).toEqual(['', null])
    const [first, second] = clinic.maren.read().split('\n---\n')
    expect(first).toMatch(/^For your attention – Orla Tiernan\nFever/)
    expect(second).toMatch(/^Open with one client:\n• Orla Tiernan: one note for your attention since Wed 7 Jan, 03:00 \(5 hours\)/)
  })

  it('on duty comes at once', () => {
    const clinic = new JoinedClinic()
    clinic.maren.skip()
    clinic.client.write('I have a fever')
    expect(clinic.maren.read()).toMatch(/^For your attention – Orla Tiernan/)
  })

  it('goes to whoever stands in meanwhile, at their next duty', () => {
    const clinic = new JoinedClinic()
    clinic.maren.write('duty').press('I will be away').write('tomorrow', '2026-01-20').press('Idris Vane', 'Save')
    clinic.rig.moveTo('2026-01-07T03:00:00Z')
    clinic.readAll()
    clinic.client.write('I have a fever')
    expect(clinic.idris.read()).toBe('')
    // Idris is on duty from 07:00 in Athens.
    clinic.rig.moveTo('2026-01-07T05:00:00Z')
    expect(clinic.idris.read()).toMatch(/^Maren Holt is away, and you stand in:\nFor your attention – Orla Tiernan/)
    expect(clinic.maren.read()).toBe('')
  })

  it('comes to a therapist who is away at the usual hour, where nobody stands in', () => {
    const clinic = new JoinedClinic()
    clinic.maren.write('duty').press('I will be away').write('tomorrow', '2026-01-20').press('Nobody', 'Save')
    clinic.rig.moveTo('2026-01-07T12:00:00Z')
    clinic.maren.skip()
    clinic.client.write('I have a fever')
    expect(clinic.maren.read()).toBe('')
    clinic.rig.moveTo('2026-01-08T08:00:00Z')
    expect(clinic.maren.read()).toMatch(/^For your attention – Orla Tiernan/)
  })

  it('goes round no circle where two are away and name each other', () => {
    const clinic = new JoinedClinic()
    clinic.maren.write('duty').press('I will be away').write('tomorrow', '2026-01-20').press('Idris Vane', 'Save')
    clinic.idris.write('duty').press('I will be away').write('tomorrow', '2026-01-20').press('Maren Holt', 'Save')
    clinic.rig.moveTo('2026-01-07T12:00:00Z')
    clinic.readAll()
    clinic.client.write('I have a fever')
    clinic.rig.moveTo('2026-01-08T05:00:00Z')
    expect(clinic.idris.read()).toContain('For your attention – Orla Tiernan')
  })
})

describe('the daily line', () => {
  it('comes once a day when the duty begins, for as long as something is open, and then no more', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my arm went numb')
    clinic.maren.press('Acknowledge', 'I have spoken with the client')
    clinic.rig.moveTo('2026-01-08T12:00:00Z')
    expect(dailyLines(clinic.maren).map(({ at }) => at)).toEqual(['2026-01-06T08:00', '2026-01-07T08:00', '2026-01-08T08:00'])
    clinic.maren.press('Clear the lock …', 'Seen in person').write('seen').press('The usual restart')
    clinic.rig.moveTo('2026-01-10T12:00:00Z')
    expect(dailyLines(clinic.maren)).toHaveLength(3)
    expect([clinic.rig.desk(colleagues.maren.desk).openMatters, clinic.rig.desk(colleagues.maren.desk).timers]).toEqual([[], []])
  })

  it('comes on no day without duty', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-09T12:00:00Z')
    clinic.client.write('my arm went numb')
    clinic.maren.press('Acknowledge', 'I have spoken with the client')
    clinic.rig.moveTo('2026-01-12T12:00:00Z')
    expect(dailyLines(clinic.maren).map(({ at }) => at)).toEqual(['2026-01-12T08:00'])
  })

  it('says for each client which alerts, for how long, acknowledged or not, the lock, reach and what waits', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('I have a fever')
    clinic.rig.moveTo('2026-01-06T07:00:00Z')
    clinic.client.write('half my face is drooping').block()
    clinic.rig.submit(chartId, { kind: 'reach', isReachable: false })
    clinic.rig.store({ ...clinic.chart(), requests: [{ id: 'rung-3-extension', kind: 'rung', ladder: 'extension', rung: 3, exercise: clinic.chart().plan!.ladders[0]!.shown[0]!, needsApproval: true, at: 0, isDeclined: false }] })
    clinic.maren.press('Acknowledge')
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    expect(dailyLines(clinic.maren).at(-1)?.text).toMatchInlineSnapshot(`
      "Open with one client:
      • Orla Tiernan: ⚠ emergency alert since Tue 6 Jan, 07:00 (1 hour), NOT ACKNOWLEDGED; one note for your attention since Mon 5 Jan, 12:00 (20 hours); training locked since Tue 6 Jan, 07:00 (1 hour); cannot be reached here; one question about a step waits"
    `)
    expect(clinic.maren.messages.findLast(({ text }) => title.test(text))?.buttons.map(({ label }) => label)).toEqual(['Orla Tiernan'])
  })

  it('shows an alert that the desk itself lost', () => {
    const clinic = new JoinedClinic()
    // The message with the alert is dropped on its way to the desk; only what the chart tells of itself arrives.
    clinic.maren.isBlocking = true
    clinic.idris.isBlocking = true
    clinic.saoirse.isBlocking = true
    clinic.client.write('my arm went numb')
    clinic.maren.isBlocking = false
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    expect(dailyLines(clinic.maren).map(({ text }) => text.split('\n')[1])).toEqual([expect.stringMatching(/urgent alert since Mon 5 Jan, 12:00 \(20 hours\), NOT ACKNOWLEDGED/)])
  })

  it('goes to whoever stands in, too', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my arm went numb')
    clinic.maren.press('Acknowledge', 'I have spoken with the client').write('duty').press('I will be away').write('tomorrow', '2026-01-20').press('Saoirse Bly', 'Save')
    clinic.readAll()
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    expect(clinic.saoirse.read()).toMatch(/^Maren Holt is away, and you stand in:\nOpen with one client:/)
    expect(clinic.maren.read()).toBe('')
  })

  it('leaves a therapist whose client went to a colleague, and comes to that colleague', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my arm went numb')
    clinic.maren.press('Acknowledge', 'I have spoken with the client')
    const { plan } = clinic.chart()
    clinic.rig.tell(chartId, { kind: 'amended', plan: plan!, by: null, reason: 'moved to a colleague', therapist: colleagues.saoirse, second: colleagues.idris })
    clinic.rig.moveTo('2026-01-06T12:00:00Z')
    expect([dailyLines(clinic.maren).length, dailyLines(clinic.saoirse).length]).toEqual([0, 1])
    expect(clinic.rig.desk(colleagues.maren.desk).clients).toEqual([])
    expect(clinic.rig.desk(colleagues.saoirse.desk).clients).toEqual([{ chart: chartId, name: 'Orla Tiernan' }])
  })

  it('comes once, late, when the machine was off at that hour', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my arm went numb')
    clinic.maren.press('Acknowledge', 'I have spoken with the client')
    clinic.rig.sleepUntil('2026-01-07T15:00:00Z')
    expect(dailyLines(clinic.maren).map(({ at }) => at)).toEqual(['2026-01-07T15:00'])
    clinic.rig.moveTo('2026-01-08T12:00:00Z')
    expect(dailyLines(clinic.maren).map(({ at }) => at)).toEqual(['2026-01-07T15:00', '2026-01-08T08:00'])
  })

  it('follows other duty times from the next duty on', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my arm went numb')
    clinic.maren.press('Acknowledge', 'I have spoken with the client').write('duty').press('Other duty times').write('every day', '06:30-12:00')
    clinic.rig.moveTo('2026-01-06T12:00:00Z')
    expect(dailyLines(clinic.maren).map(({ at }) => at)).toEqual(['2026-01-06T06:30'])
  })

  it('puts the gravest client first', () => {
    const clinic = new JoinedClinic()
    const { desk } = colleagues.maren
    const open = (name: string, level: 'urgent' | 'routine', since: string) => ({
      client: name, alerts: [{ level, count: 1, unacknowledged: 1, since: Date.parse(since) }], lockedSince: null, isUnreachable: false, approvals: 0,
    })
    clinic.rig.tell(desk, { kind: 'open-matters', chart: chartId, matters: open('Orla Tiernan', 'routine', '2026-01-01T10:00:00Z') })
    clinic.rig.tell(desk, { kind: 'open-matters', chart: `${chartId.slice(0, -1)}f` as typeof chartId, matters: open('Noor Lindqvist', 'urgent', '2026-01-04T10:00:00Z') })
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    expect(dailyLines(clinic.maren)[0]?.text.split('\n').map((line) => line.split(':')[0])).toEqual(['Open with 2 clients', '• Noor Lindqvist', '• Orla Tiernan'])
  })
})
