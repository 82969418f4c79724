// Signs that are urgent, routine, known, or only perhaps meant.
import { describe, expect, it } from 'vitest'
import { inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'
import type { Plan } from '#src/domain/plan.ts'

describe('an urgent sign', () => {
  it('in cover hours says by when somebody will be in touch', () => {
    const clinic = inFirstSet()
    clinic.client.write('my arm went numb')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Stop training now and put everything down.
      Your therapist has been told. If nobody has been in touch by Mon 5 Jan, 22:00, call 020 913 0104.
      If you get sudden weakness, a numb face, trouble with sight, speech or swallowing, or the worst headache of your life: call 112 at once."
    `)
    expect(clinic.chart().lock?.level).toBe('urgent')
  })

  it('outside them says that nobody is on duty, from when somebody is, and the number to call', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-10T21:00:00Z')
    clinic.readAll()
    clinic.client.write('my arm went numb')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Stop training now and put everything down.
      Nobody is on duty right now, not until Sun 11 Jan, 05:00. Your therapist has been told, but call 020 913 0104 today and do not wait for an answer here.
      If you get sudden weakness, a numb face, trouble with sight, speech or swallowing, or the worst headache of your life: call 112 at once."
    `)
    expect(clinic.maren.read()).toContain('⚠ URGENT, same day – Orla Tiernan')
  })

  it('is on duty up to the minute the cover ends, by the therapist’s clock', () => {
    const said = ['2026-01-06T19:59:00Z', '2026-01-06T20:00:00Z'].map((at) => {
      const clinic = new JoinedClinic()
      clinic.rig.moveTo(at)
      return clinic.client.skip().write('my arm went numb').read().includes('Nobody is on duty')
    })
    expect(said).toEqual([false, true])
  })

  it('is named by pressing it at the safety check, in two steps', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.press('Ready', 'Arm, leg or hands weak, numb, tingling or clumsy').skip()
    clinic.maren.skip()
    clinic.client.press('Clumsy or numb hands on both sides')
    expect(clinic.chart().lock?.level).toBe('urgent')
    expect(clinic.maren.read()).toContain('Client’s words: “(pressed) Clumsy or numb hands on both sides”')
    expect(clinic.maren.messages.at(-1)?.text).toContain('During: before the first set')
  })

  it('of the neck’s own pain, 8 and far above usual, ends the day', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.press('Ready', 'None of these').write('8')
    expect(clinic.chart().lock?.level).toBe('urgent')
    expect(clinic.maren.read()).toContain('Client’s words: “Pain right now 8 out of 10”')
  })

  it('told while locked already is told again, and makes no emergency of it', () => {
    const clinic = inFirstSet()
    clinic.client.write('my arm went numb', 'now both hands are clumsy')
    expect(clinic.chart().lock?.level).toBe('urgent')
    expect(clinic.maren.read().match(/⚠ URGENT/g)).toHaveLength(2)
  })

  it('that grows into an emergency makes one of the lock', () => {
    const clinic = inFirstSet()
    clinic.client.write('my arm went numb', 'now my leg gave way and half my face is drooping')
    expect(clinic.chart().lock?.level).toBe('emergency')
    expect(clinic.asks).toBe('called.called')
  })
})

describe('a client whose training is paused', () => {
  const locked = (): JoinedClinic => {
    const clinic = inFirstSet()
    clinic.client.write('my arm went numb')
    clinic.readAll()
    return clinic
  }

  it('who writes is told that nobody may be reading, and the therapist gets the words', () => {
    const clinic = locked()
    clinic.client.write('what now?')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Your training is paused until your therapist has spoken with you. I have passed on what you wrote, but nobody may be reading it right now.
      If you need somebody and hear nothing, call 020 913 0104. If it gets worse or feels like an emergency, call 112 now."
    `)
    expect(clinic.maren.read()).toBe('Orla Tiernan wrote while training is paused: “what now?”')
  })

  it('who writes that something is wrong is asked what, besides', () => {
    const clinic = locked()
    clinic.client.write('something is wrong')
    expect(clinic.asks).toBe('symptom.ask')
    expect(clinic.maren.read()).toBe('Orla Tiernan wrote while training is paused: “something is wrong”')
  })

  it('who asks for help reads the emergency number first', () => {
    const clinic = locked()
    clinic.client.write('help')
    expect(clinic.client.read()).toMatch(/^If something feels wrong, stop and put the weight down\. For sudden weakness[^]*call 112 now\./)
  })
})

describe('words that may mean a sign', () => {
  const unsure = (words = 'is it normal that my face might be numb?'): JoinedClinic => {
    const clinic = inFirstSet()
    clinic.client.write(words)
    return clinic
  }

  it('pause at once and ask one plain question, which "no" answers', () => {
    const clinic = unsure()
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Stop for a moment and put everything down. You wrote: “is it normal that my face might be numb?”
      Do you have this now, new or worse than before: Numb face or numb half of the body?
      [Yes] [No]"
    `)
    clinic.client.press('No')
    expect(clinic.client.read()).toContain('Good, thank you. If that changes, stop and write to me at once.')
    expect(clinic.asks).toBe('session.set')
    expect(clinic.chart().timers.filter(({ kind }) => kind.includes('sign'))).toEqual([])
    expect(clinic.maren.read()).toBe('')
  })

  it('alarm at a "yes" like words that are sure', () => {
    const clinic = unsure()
    clinic.client.press('Yes')
    expect(clinic.chart().lock?.level).toBe('emergency')
    expect(clinic.maren.read()).not.toContain('UNCONFIRMED')
    expect(clinic.maren.messages.at(-1)?.text).toContain('Client’s words: “is it normal that my face might be numb?”')
  })

  it('are asked again after 2 minutes, and alarm as unconfirmed after 5 where they may mean an emergency', () => {
    const clinic = unsure()
    clinic.client.skip()
    clinic.rig.pass({ minutes: 1, seconds: 59 })
    expect(clinic.client.read()).toBe('')
    clinic.rig.pass({ seconds: 1 })
    expect(clinic.client.read()).toContain('Do you have this now, new or worse than before')
    clinic.rig.pass({ minutes: 2, seconds: 59 })
    expect(clinic.maren.read()).toBe('')
    clinic.rig.pass({ seconds: 1 })
    expect(clinic.maren.read()).toContain('UNCONFIRMED: the client was asked and has not answered.')
    expect(clinic.asks).toBe('called.called')
    expect(clinic.client.read()).toContain('Call 112 now')
  })

  it('alarm as unconfirmed after 30 minutes where they may mean an urgent sign', () => {
    const clinic = unsure('is it normal that my hand tingles?')
    clinic.rig.pass({ minutes: 29, seconds: 59 })
    expect(clinic.maren.read()).toBe('')
    clinic.rig.pass({ seconds: 1 })
    expect(clinic.maren.read()).toContain('⚠ URGENT, same day – Orla Tiernan\nUNCONFIRMED')
    expect(clinic.chart().lock?.level).toBe('urgent')
  })

  it('left by "stop" alarm at once as unconfirmed', () => {
    const clinic = unsure()
    clinic.client.write('stop')
    expect(clinic.maren.read()).toContain('UNCONFIRMED')
    expect(clinic.chart().lock?.level).toBe('emergency')
  })

  it('and fit no sign in particular ask about all of them, and leave the answer beside them untaken', () => {
    const clinic = inFirstSet()
    clinic.client.press('Done').skip().write('2 and my face feels funny is that bad')
    expect(clinic.asks).toBe('symptom.unclear')
    expect(clinic.client.read()).toContain('You wrote: “2 and my face feels funny is that bad”')
    clinic.client.press('None of these')
    expect(clinic.asks).toBe('session.pain')
    expect(clinic.chart().session?.sets).toEqual([])
    expect(clinic.maren.read()).toBe('')
  })

  it('and turn out to be one alarm with the words and what was pressed', () => {
    const clinic = unsure('my face feels funny is that bad')
    clinic.client.press('Dizzy, double vision, speech, swallowing or face', 'Face or eyelid hanging down')
    expect(clinic.chart().lock?.level).toBe('emergency')
    const alert = clinic.maren.read()
    expect(alert).toContain('Drooping face or eyelid')
    expect(alert).toContain('Client’s words: “my face feels funny is that bad”')
    expect(clinic.chart().timers.filter(({ kind }) => kind.includes('sign'))).toEqual([])
  })

  it('and mean something that stands on no list are told as urgent, in the client’s own words', () => {
    const clinic = unsure('my face feels funny is that bad')
    clinic.client.write('something else')
    expect(clinic.chart().lock?.level).toBe('urgent')
    expect(clinic.maren.read()).toContain('Something may be wrong that fits no sign of the list')
  })

  it('and "stop" stop the session, and are asked about once', () => {
    const clinic = unsure('stop, my face feels funny is that bad')
    expect(clinic.chart().session?.isOver).toBe(true)
    expect(clinic.asks).toBe('symptom.unclear')
    expect(clinic.client.read().match(/new or worse right now/g)).toHaveLength(1)
    clinic.client.press('None of these')
    expect(clinic.chart().session).toBeNull()
  })

  it.each(['something is wrong', 'my face feels funny is that bad'])('that fit no sign, left without an answer, alarm as unconfirmed after 5 minutes: %s', (words) => {
    const clinic = unsure(words)
    clinic.rig.pass({ minutes: 4, seconds: 59 })
    expect(clinic.maren.read()).toBe('')
    clinic.rig.pass({ seconds: 1 })
    const alert = clinic.maren.read()
    expect(alert).toContain('UNCONFIRMED')
    expect(alert).toContain(`Client’s words: “${words}”`)
    expect(clinic.chart().lock?.level).toBe('urgent')
  })

  it('of a group pressed at the safety check alarm too, for the worst of the group, when nothing more comes', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.press('Ready', 'Arm, leg or hands weak, numb, tingling or clumsy')
    clinic.readAll()
    clinic.rig.pass({ minutes: 5 })
    expect(clinic.maren.read()).toContain('UNCONFIRMED')
    expect(clinic.chart().lock?.level).toBe('emergency')
  })
})

describe('a sign that the therapist knows', () => {
  const knownSigns = [{ sign: 'arm-numbness', words: 'tingling in the left hand', side: 'left', area: 'hand', worst: 3 }] as const
  const known = (words = 'my left hand tingles'): JoinedClinic => {
    const clinic = inFirstSet({ plan: { ...extensionPlan, knownSigns } })
    clinic.client.write(words)
    return clinic
  }

  it('is asked about in the therapist’s words, and as usual goes on', () => {
    const clinic = known()
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Your therapist knows that you have this: tingling in the left hand. Is it as usual, or is it worse, new or in a new place?
      [Worse, new or spread] [As usual]"
    `)
    clinic.client.write('same as always')
    expect(clinic.asks).toBe('session.set')
    expect(clinic.chart().lock).toBeNull()
    expect(clinic.maren.read()).toBe('')
  })

  it.each(['press', 'words'])('locks when it is worse, by a %s', (by) => {
    const clinic = known()
    if (by === 'press') clinic.client.press('Worse, new or spread')
    else clinic.client.write("it's worse than usual")
    expect(clinic.chart().lock?.level).toBe('urgent')
    expect(clinic.maren.read()).toContain('Client’s words: “my left hand tingles”')
  })

  it('is not asked about twice when it is named again', () => {
    const clinic = known()
    clinic.client.write('my left hand tingles')
    expect(clinic.chart().conversations.map(({ flow }) => flow)).toEqual(['session', 'symptom'])
  })

  it('never covers an emergency, nor another sign', () => {
    expect(known('my arm is numb and half my face is drooping').chart().lock?.level).toBe('emergency')
    expect(known('I feel unsteady when I walk').chart().lock?.level).toBe('urgent')
  })
})

describe('a routine sign', () => {
  it('is told and locks nothing; the session goes on', () => {
    const clinic = inFirstSet()
    clinic.client.write('I have a fever')
    expect(clinic.client.read()).toMatch(/^Thank you for telling me\. Your therapist will see it\.[^]*Set 1 of 3/)
    expect(clinic.chart().lock).toBeNull()
    expect(clinic.maren.read()).toMatchInlineSnapshot(`
      "For your attention – Orla Tiernan
      Fever: “I have a fever”
      When: Mon 5 Jan, 18:00 (Europe/Dublin); your time Mon 5 Jan, 18:00 (Europe/Dublin)
      During: set 1 of 3 – two-hand press: 5 holds of 5 seconds, push 3 out of 10
      [Acknowledge]"
    `)
  })

  it('is closed when it is acknowledged, and never sent again', () => {
    const clinic = inFirstSet()
    clinic.client.write('I have a fever')
    clinic.maren.skip().press('Acknowledge')
    expect(clinic.maren.read()).toBe('Orla Tiernan: noted.')
    expect(clinic.chart().alerts).toEqual([])
  })

  it('together with a second one is urgent', () => {
    const clinic = inFirstSet()
    clinic.client.write('I have a fever and I am losing weight without trying')
    expect(clinic.chart().lock?.level).toBe('urgent')
  })

  it('of a new illness, medicine, operation or pregnancy at the safety check is told, and the check goes on', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.press('Ready').skip().press('New illness, medicine, operation or pregnancy')
    expect(clinic.client.read()).toContain('Thank you for saying so. Your therapist will see it. Is anything else new or worse?')
    expect(clinic.maren.read()).toContain('New illness, medicine, operation or pregnancy reported at the screen: please ask about it.')
    expect(clinic.asks).toBe('session.screen')
  })

  it.each([
    ['two weeks running', ['3', '2', '4'], ['3', '2', '4'], true],
    ['two weeks running, the second left early', ['3', '2', '4'], ['4', '2', 'stop'], true],
    ['in the second week only', ['2', '2', '4'], ['3', '2', '4'], false],
    ['in the first week only', ['3', '2', '4'], ['2', '2', '4'], false],
  ])('of a high weekly average %s, answered %j and %j: told is %s', (_title, first, second, isTold) => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-12T08:00:00Z')
    clinic.client.write(...first)
    clinic.rig.moveTo('2026-01-19T07:59:00Z')
    clinic.readAll()
    clinic.rig.moveTo('2026-01-19T08:00:00Z')
    clinic.client.write(...second)
    const line = 'Average pain of the week 3, the week before 3; usual 1. Two weeks running well above usual.'
    expect(clinic.maren.read().includes(line)).toBe(isTold)
  })
})

describe('a new fall, crash or blow', () => {
  const fallsOften = [{ sign: 'other-trauma', words: 'falls now and then', side: null, area: 'anywhere', worst: 0 }] as const

  function at(age: number, knownSigns: Plan['knownSigns'] = []): JoinedClinic {
    const clinic = inFirstSet({ plan: { ...extensionPlan, knownSigns, screening: { ...extensionPlan.screening, age } } })
    clinic.readAll()
    return clinic
  }

  it.each([
    [64, 'urgent'],
    [65, 'emergency'],
  ])('told at %i years locks as %s', (age, level) => {
    const clinic = at(age)
    clinic.client.write('I had a fall yesterday')
    expect(clinic.chart().lock?.level).toBe(level)
  })

  it.each([
    [64, 30],
    [65, 5],
  ])('only perhaps meant and left unanswered alarms at %i years after %i minutes', (age, minutes) => {
    const clinic = at(age)
    clinic.client.write('is it bad if I fell')
    clinic.rig.pass({ minutes: minutes - 1 })
    const before = clinic.chart().lock
    clinic.rig.pass({ minutes: 1 })
    expect([before, clinic.chart().lock !== null]).toEqual([null, true])
  })

  it.each([
    [64, 'symptom.known'],
    [65, 'called.called'],
  ])('recorded as known leads at %i years to %s: an emergency is never known', (age, asks) => {
    const clinic = at(age, fallsOften)
    clinic.client.write('I had a fall yesterday')
    expect(clinic.asks).toBe(asks)
  })
})
