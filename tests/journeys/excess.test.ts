// A client so many answers behind that their network brings none any more: what is heard of them all the same.
import { describe, expect, it } from 'vitest'
import type { Plan } from '#src/domain/plan.ts'
import { chartId, inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'

const invitation = { token: 'token', link: 'https://chat.example/token' }

function write(clinic: JoinedClinic, ...texts: readonly string[]): void {
  const { contact: from } = clinic.client
  for (const text of texts) clinic.rig.submit(chartId, { kind: 'message', from, text, invitation, isEdit: false, isExcess: true })
}

function press(clinic: JoinedClinic, data: string): void {
  clinic.rig.submit(chartId, { kind: 'press', from: clinic.client.contact, data, invitation, isExcess: true })
}

const levels = (clinic: JoinedClinic): readonly string[] => clinic.chart().alerts.map(({ level }) => level)

describe('behind thirty unsent answers', () => {
  it('nothing is said to words that answer nothing, and nothing is kept of them', () => {
    const clinic = inFirstSet()
    const before = clinic.chart()
    write(clinic, 'hello?', 'what about lunch', '4', 'help', 'tell my therapist: hello')
    expect([clinic.chart(), clinic.client.read(), clinic.maren.read()]).toEqual([before, '', ''])
  })

  it('a sign alarms, a second one too, and each only once while its alert is open', () => {
    const clinic = inFirstSet()
    write(clinic, 'my arm went numb', 'my arm went numb', 'half my face is drooping', 'half my face is drooping')
    expect(levels(clinic)).toEqual(['urgent', 'emergency'])
    expect(clinic.maren.read()).toMatch(/URGENT[^]*EMERGENCY/)
  })

  it('words that may mean a sign are asked about once, and alarm when nobody answers', () => {
    const clinic = inFirstSet()
    write(clinic, 'is it normal that my face might be numb?', 'is it normal that my face might be numb?')
    expect(clinic.chart().conversations.filter(({ flow }) => flow === 'symptom').length).toBe(1)
    clinic.rig.pass({ minutes: 5 })
    expect(levels(clinic)).toEqual(['emergency'])
  })

  it('a long-standing sign is asked about', () => {
    const knownSigns: Plan['knownSigns'] = [{ sign: 'arm-numbness' as never, words: 'tingling in the left hand', side: 'left', area: 'hand', worst: 3 as never }]
    const clinic = inFirstSet({ plan: { ...extensionPlan, knownSigns } })
    write(clinic, 'my arm went numb', 'my arm went numb')
    expect([clinic.asks, clinic.chart().conversations.filter(({ flow }) => flow === 'symptom').length]).toEqual(['symptom.known', 1])
  })

  it('"stop" ends the session, also over a question about a sign', () => {
    const [plain, asked] = [inFirstSet(), inFirstSet()]
    write(plain, 'stop')
    write(asked, 'is it normal that my face might be numb?', 'stop')
    expect([plain, asked].map((clinic) => clinic.chart().session?.isOver ?? true)).toEqual([true, true])
    expect([plain, asked].map((clinic) => clinic.asks?.startsWith('session.') ?? false)).toEqual([false, false])
    const said = plain.rig.entries.length
    write(plain, 'stop', 'stop', 'stop', 'stop', 'stop')
    expect(plain.rig.entries.length).toBeLessThan(said + 5)
  })

  it('whoever wants to leave is asked once whether that is meant', () => {
    const clinic = new JoinedClinic()
    write(clinic, 'I want to leave the programme', 'I want to leave the programme')
    expect(clinic.chart().conversations.map(({ flow }) => flow)).toEqual(['withdrawal'])
  })

  it('a press on what is asked now counts, and one on anything else does not', () => {
    const clinic = inFirstSet()
    const done = clinic.client.button('Done').data
    const before = clinic.chart()
    press(clinic, done.replace(/^p:\d+/, 'p:1'))
    press(clinic, 'nothing of ours')
    expect([clinic.chart(), clinic.client.read()]).toEqual([before, ''])
    press(clinic, done)
    expect(clinic.asks).toBe('session.pain')
  })
})
