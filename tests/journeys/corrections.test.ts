// Answers taken back, and buttons pressed twice or too late.
import { describe, expect, it } from 'vitest'
import { inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'

const eased = 'two-hand press: 5 holds of 4 seconds, push 3 out of 10'
const symptomQuestion = 'One question to be safe: is any of this new or worse right now?'

describe('a correction', () => {
  const afterFirstSet = (): JoinedClinic => inFirstSet().doSets({ pain: 1, reserve: 3 })

  it('to something worse counts at once', () => {
    const clinic = inFirstSet()
    clinic.client.press('Done').write('1').skip().write('sorry, I meant 6')
    expect(clinic.client.read()).toContain('Thank you for putting that right. Worst pain in the set: 6. I go by that from now on.')
    expect(clinic.asks).toBe('symptom.ask')
  })

  it('to worse of an earlier answer of the set, named in words, changes that answer and no other', () => {
    const clinic = afterFirstSet()
    clinic.client.skip().write('sorry, the pain was 4')
    expect(clinic.chart().session?.sets.map(({ report }) => report)).toEqual([{ pain: 4, control: 'steady', reserve: 3, finished: true }])
    expect(clinic.client.read()).toMatch(/^Thank you for putting that right\. Worst pain in the set: 4\.[^]*This one is easier than before\.\nSet 2 of 3/)
    clinic.client.write('actually my shoulders moved')
    expect(clinic.chart().session?.sets.map(({ report }) => report?.control)).toEqual(['lost'])
    expect(clinic.client.read()).toContain('Chin, shoulders or body helped: Yes.')
  })

  it('to something better is noted, and no set is asked anew', () => {
    const clinic = inFirstSet().doSets({ pain: 4, reserve: 1 })
    clinic.client.skip().write('sorry, I meant 3')
    expect(clinic.client.read()).toContain('Noted. How many more you could have done: 3. It counts for next time. Today stays as it is.')
    expect(clinic.dosesAsked.at(-1)).toBe(`Set 2 of 3 – ${eased}`)
    expect(clinic.chart().session?.sets[0]).toMatchObject({ report: { reserve: 1 }, corrected: { reserve: 3 } })
  })

  it('to better after a stop starts nothing again', () => {
    const clinic = inFirstSet()
    clinic.client.press('Done').write('6', 'sorry, I meant 2')
    expect(clinic.chart().session?.stopped).toEqual(['extension'])
    expect(clinic.asks).toBe('symptom.ask')
  })

  it('of the pain before the session is judged anew', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.press('Ready', 'None of these').write('1', 'oops, I meant 7')
    expect(clinic.asks).toBe('symptom.ask')
    expect(clinic.client.messages.at(-1)?.text).toContain(symptomQuestion)
    clinic.client.press('None of these')
    expect(clinic.chart().session).toBeNull()
  })
})

describe('a press', () => {
  it('that comes twice counts once and says so', () => {
    const clinic = inFirstSet()
    const { data } = clinic.client.button('Done')
    clinic.client.pressData(data).skip().pressData(data)
    expect(clinic.asks).toBe('session.pain')
    expect(clinic.client.read()).toBe('That button belongs to an earlier question. Nothing was changed. Please answer the newest one.')
  })

  it('of a session long over changes nothing and says so', () => {
    const clinic = inFirstSet()
    const { data } = clinic.client.button('Leave this set out')
    while (clinic.asks === 'session.set') clinic.doSet()
    const before = structuredClone(clinic.chart())
    clinic.client.skip().pressData(data)
    expect(clinic.client.read()).toBe('That button belongs to an earlier question. Nothing was changed.')
    expect(clinic.chart()).toEqual(before)
  })
})
