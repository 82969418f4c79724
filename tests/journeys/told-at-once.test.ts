// Who answers everything in one sentence is not asked again for what they have said.
import { describe, expect, it } from 'vitest'
import type { SetReport } from '#src/domain/set-report.ts'
import { inFirstSet } from '#tests/support/joined-clinic.ts'

type Told = readonly [said: string, report: SetReport]

const whole: readonly Told[] = [
  ['done, pain 2, no wobble, 3 left', { pain: 2, control: 'steady', reserve: 3, finished: true }],
  ['pain 4 reserve 1 shaky', { pain: 4, control: 'shaky', reserve: 1, finished: true }],
  ['done. no pain. rock solid. could have done 5 more', { pain: 0, control: 'steady', reserve: 5, finished: true }],
  ["couldn't finish it, pain 4, chin poked forward, nothing left", { pain: 4, control: 'lost', reserve: 0, finished: false }],
]

describe('a set told in one sentence', () => {
  it.each(whole)('is taken whole: "%s"', (said, report) => {
    const clinic = inFirstSet()
    clinic.client.write(said)
    expect(clinic.chart().session?.sets[0]?.report).toEqual(report)
    expect(clinic.asks).toBe('session.set')
    expect(clinic.client.read()).toContain('Noted. Worst pain in the set:')
  })

  it('is asked only for what is missing', () => {
    const clinic = inFirstSet()
    clinic.client.press('Done').write('2, a bit shaky')
    expect(clinic.asks).toBe('session.reserve')
    expect(clinic.chart().session?.underWay).toMatchObject({ pain: 2, control: 'shaky', reserve: null })
    expect(clinic.client.read()).toContain('Chin, shoulders or body helped: A little.')
  })

  it('with the reserve told besides the control is not asked for it', () => {
    const clinic = inFirstSet()
    clinic.client.press('Done').write('2').press('No')
    const other = inFirstSet()
    other.client.press('Done').write('2').write('no, 3 left')
    expect(clinic.asks).toBe('session.reserve')
    expect(other.chart().session?.sets[0]?.report).toEqual({ pain: 2, control: 'steady', reserve: 3, finished: true })
  })

  it.each(['2, fine', '2 no problem at all otherwise', '2 3'])('takes nothing that may be said of something else: "%s"', (said) => {
    const clinic = inFirstSet()
    clinic.client.press('Done').write(said)
    expect(clinic.chart().session?.underWay?.reserve).toBeNull()
    expect(clinic.asks).toBe(said.includes('problem') ? 'session.reserve' : 'session.control')
  })

  it('that was not finished counts as that, and what is missing is asked', () => {
    const clinic = inFirstSet()
    clinic.client.write('I could not finish it')
    expect(clinic.asks).toBe('session.pain')
    clinic.client.write('1').press('No').write('0')
    expect(clinic.chart().session?.sets[0]?.report?.finished).toBe(false)
  })

  it('with red pain stops, and asks nothing more about the set', () => {
    const clinic = inFirstSet()
    clinic.client.write('7, lost it completely, nothing left')
    expect(clinic.asks).toBe('symptom.ask')
    expect(clinic.chart().session?.sets[0]?.report).toMatchObject({ pain: 7, control: null, reserve: null })
  })

  it('with a sign in it is a sign', () => {
    const clinic = inFirstSet()
    clinic.client.write('done, pain 2, no wobble, 3 left, but my left hand is tingling')
    expect(clinic.chart().lock?.level).toBe('urgent')
  })

  it('can be put right like any other answer', () => {
    const clinic = inFirstSet()
    clinic.client.write('done, pain 2, no wobble, 3 left').write('sorry, I meant pain 6')
    expect(clinic.chart().session?.sets[0]?.report?.pain).toBe(6)
  })
})

describe('"same as before"', () => {
  it('is what the set before was answered with, and is read back', () => {
    const clinic = inFirstSet()
    clinic.doSet({ pain: 2, moved: 'A little', reserve: 4 }).client.press('Done').skip().write('same as before')
    expect(clinic.client.read()).toContain('Noted. Worst pain in the set: 2.')
    clinic.client.write('the same').write('same again')
    expect(clinic.chart().session?.sets[1]?.report).toEqual({ pain: 2, control: 'shaky', reserve: 4, finished: true })
  })

  it('goes by what was put right', () => {
    const clinic = inFirstSet()
    clinic.doSet({ pain: 4 }).client.write('sorry, I meant pain 2').press('Done').write('same as before')
    expect(clinic.chart().session?.underWay?.pain).toBe(2)
  })

  it.each(['pain', 'control'])('is asked again where there is no set before (%s)', (state) => {
    const clinic = inFirstSet()
    clinic.client.press('Done')
    if (state === 'control') clinic.client.write('2')
    clinic.client.write('same as before')
    expect(clinic.asks).toBe(`session.${state}`)
  })
})
