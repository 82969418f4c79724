// Who may do what to a client's chart: presses from the wrong account, with the wrong ids, repeated or long outdated.
import { describe, expect, it } from 'vitest'
import { actKinds } from '#src/chart/event.ts'
import { newChart } from '#src/chart/chart.ts'
import { brandAs, type DocumentId } from '#src/domain/identifier.ts'
import { chartId, colleagues, inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'

const elsewhere = brandAs<DocumentId>('chart-ffffffffffff')

/** Locked, with an alert that waits for somebody. */
function locked(): JoinedClinic {
  const clinic = inFirstSet()
  clinic.client.write('my arm went numb')
  clinic.readAll()
  return clinic
}

const everyAct = actKinds.map((act) => `m:${chartId}:0:${act}:a1`)

describe('the press of a therapist’s button', () => {
  it.each(everyAct)('by the client themself changes nothing: %s', (data) => {
    const clinic = locked()
    const [before, entries] = [clinic.chart(), clinic.rig.entries.length]
    clinic.client.pressData(data)
    expect(clinic.chart()).toEqual(before)
    expect(clinic.rig.entries.length).toBe(entries)
    expect(clinic.maren.read()).toBe('')
  })

  it.each(everyAct)('by an unknown chat changes nothing and shows nothing: %s', (data) => {
    const clinic = locked()
    const [before, entries] = [clinic.chart(), clinic.rig.entries.length]
    const stranger = clinic.rig.person('stranger').pressData(data)
    expect(clinic.chart()).toEqual(before)
    expect(clinic.rig.entries.length).toBe(entries)
    expect(stranger.read()).toMatch(/^Hello\. I only talk with people who have an invitation\./)
  })

  it.each(everyAct)('by somebody who has not said yet who they are is no act: %s', (data) => {
    const clinic = locked()
    const before = clinic.chart()
    const newcomer = clinic.rig.person('newcomer')
    clinic.rig.tell(brandAs<DocumentId>('desk-00000000dddd'), { kind: 'opened', contact: newcomer.contact, card: null })
    newcomer.skip().pressData(data)
    expect(clinic.chart()).toEqual(before)
    expect(newcomer.read()).not.toContain('Orla')
  })

  it.each(actKinds)('about a client whom this clinic does not have makes no chart and shows nothing: %s', (act) => {
    const clinic = locked()
    const entries = clinic.rig.entries.length
    clinic.maren.pressData(`m:${elsewhere}:0:${act}:a1`)
    expect(clinic.rig.chart(elsewhere)).toEqual(newChart(elsewhere))
    expect(clinic.rig.entries.length).toBe(entries)
    expect(clinic.maren.read()).toBe('')
  })

  it('carries who pressed by their desk, which no name can be forged into', () => {
    const clinic = locked()
    const forger = clinic.rig.person('forger')
    const desk = brandAs<DocumentId>('desk-00000000dddd')
    const { name, zone, cover } = colleagues.maren
    clinic.rig.tell(desk, { kind: 'opened', contact: forger.contact, card: { name, zone, cover } })
    forger.pressData(`m:${chartId}:0:acknowledge:a1`)
    expect(clinic.entries('act').map(({ by, data }) => ({ by, desk: data.desk }))).toEqual([{ by: 'Maren Holt', desk }])
    expect(clinic.entries('alert-acknowledged').map(({ by, data }) => ({ by, desk: data.desk }))).toEqual([{ by: 'Maren Holt', desk }])
  })

  it('from an old message counts for what is there now, and says so where that is gone', () => {
    const clinic = locked()
    clinic.maren.press('Acknowledge', 'I have spoken with the client', 'Clear the lock …', 'Seen in person').write('examined today').press('The usual restart')
    clinic.readAll()
    const before = clinic.chart()
    clinic.idris.pressData(`m:${chartId}:1:acknowledge:a1`).pressData(`m:${chartId}:1:clear:a1`).pressData(`m:${chartId}:1:contacted:a1`)
    expect({ ...clinic.chart(), revision: 0 }).toEqual({ ...before, revision: 0 })
    expect(clinic.idris.read().split('\n---\n')).toEqual([
      'Orla Tiernan: that alert is closed. Nothing was changed.',
      'Orla Tiernan: not locked. Nothing was changed.',
      'Orla Tiernan: that alert is closed. Nothing was changed.',
    ])
  })
})

describe('a client who has left', () => {
  it('is not let back to training by their therapist’s old buttons', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('I want to leave the programme').press('Leave for good', 'Leave it empty')
    expect(clinic.chart().standing).toBe('withdrawn')
    for (const act of ['resume', 'review', 'permit', 'clear'] as const) clinic.maren.pressData(`m:${chartId}:0:${act}:now`)
    expect(clinic.chart().standing).toBe('withdrawn')
    clinic.readAll()
    clinic.rig.pass({ days: 8 })
    expect(clinic.client.read()).toBe('')
  })
})
