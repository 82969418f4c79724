// A lock is cleared by somebody who has judged everything that locked it.
import { describe, expect, it } from 'vitest'
import { inFirstSet, type JoinedClinic } from '#tests/support/joined-clinic.ts'

function locked(): JoinedClinic {
  const clinic = inFirstSet()
  clinic.client.write('my arm went numb')
  clinic.readAll()
  return clinic
}

describe('the clearing of a lock', () => {
  it('that was begun before a new sign came in clears nothing, and says so', () => {
    const clinic = locked()
    clinic.maren.press('Clear the lock …', 'Seen in person').write('the arm was slept on')
    clinic.client.write('half my face is drooping')
    clinic.maren.skip().press('The usual restart')
    expect(clinic.maren.read()).toContain('Orla Tiernan: a new sign came in after you began to clear. Nothing was cleared.')
    expect(clinic.chart().lock?.level).toBe('emergency')
    expect(clinic.entries('cleared')).toEqual([])
    expect(clinic.entries('clearing-outdated').map(({ by }) => by)).toEqual(['Maren Holt'])

    clinic.maren.press('Clear the lock …', 'Seen in person').write('assessed in hospital').press('The usual restart')
    expect(clinic.chart().lock).toBeNull()
  })

  it('is not held up by an alert that locks nothing', () => {
    const clinic = locked()
    clinic.maren.press('Clear the lock …', 'Seen in person').write('the arm was slept on')
    clinic.client.block()
    clinic.rig.receive({ kind: 'reach', from: clinic.client.contact, isReachable: false })
    clinic.maren.press('The usual restart')
    expect(clinic.chart().lock).toBeNull()
  })
})
