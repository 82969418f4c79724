// A client who falls silent in the middle of a session.
import { describe, expect, it } from 'vitest'
import { brandAs, type ExerciseId } from '#src/domain/identifier.ts'
import { inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'

const onHarness = {
  ...extensionPlan,
  ladders: [{ direction: 'extension', rung: 4, maxRung: 4, shown: [brandAs<ExerciseId>('seated-harness')] }] as const,
}

describe('silence in a set', () => {
  // 60 s of rest and 5 repetitions of 5 s with 4 s between them are 105 s; asked 5 min later: 6 min 45 s.
  it('is asked about once, five minutes after the set should be over', () => {
    const clinic = inFirstSet()
    clinic.rig.moveTo('2026-01-05T18:06:44Z')
    expect(clinic.client.read()).toBe('')
    clinic.rig.moveTo('2026-01-05T18:06:45Z')
    expect(clinic.client.read()).toMatch(/^Are you all right\? I have not heard from you\.[^]*Set 1 of 3/)
    expect(clinic.asks).toBe('session.set')
  })

  it('pauses the session five minutes later, and says nothing more until midnight', () => {
    const clinic = inFirstSet()
    clinic.rig.moveTo('2026-01-05T18:11:44Z')
    clinic.client.skip()
    clinic.rig.moveTo('2026-01-05T18:11:45Z')
    expect(clinic.client.read()).toMatchInlineSnapshot(`"I have paused the session. Write anything when you want to go on. If you cannot go on or need help, say so or call somebody."`)
    clinic.rig.moveTo('2026-01-05T23:59:59Z')
    expect(clinic.client.read()).toBe('')
    expect(clinic.maren.read()).toBe('')
  })

  it('with a weight on the head is told to the therapist, once', () => {
    const clinic = inFirstSet({ plan: onHarness })
    clinic.rig.moveTo('2026-01-05T22:00:00Z')
    expect(clinic.maren.read()).toMatchInlineSnapshot(`
      "For your attention – Orla Tiernan
      Silent in the middle of a set under load: Seated head lift with a harness. The session is paused.
      When: Mon 5 Jan, 18:12 (Europe/Dublin); your time Mon 5 Jan, 18:12 (Europe/Dublin)
      During: set 1 of 3 – harness lift: 8 repetitions, the empty harness (0.4 kg)
      [Acknowledge]"
    `)
    expect(clinic.chart().lock).toBeNull()
  })

  it('that ends goes on where it was', () => {
    const clinic = inFirstSet()
    clinic.rig.moveTo('2026-01-05T19:00:00Z')
    clinic.client.skip().write('sorry, the phone rang, I am done now')
    expect(clinic.asks).toBe('session.pain')
    clinic.client.write('2')
    expect(clinic.asks).toBe('session.control')
  })

  it('at the safety check is not asked about: nothing is being lifted', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.press('Ready').skip()
    clinic.rig.moveTo('2026-01-05T23:00:00Z')
    expect(clinic.client.read()).toBe('')
  })
})

describe('midnight in the client’s zone', () => {
  it('closes a session that was left open; what was answered counts', () => {
    const clinic = inFirstSet()
    clinic.doSet().client.press('Done').write('2')
    clinic.rig.moveTo('2026-01-05T23:59:59Z')
    clinic.client.skip()
    clinic.rig.moveTo('2026-01-06T00:00:00Z')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "The day is over, so I have closed your session. What you did counts.

      That was your session for today.
      • two-hand press: 2 of 3 sets done

      Next time: the same again.
      two-hand press: 3 sets of 5 holds of 5 seconds, push 3 out of 10.
      Why: An answer was missing. Set 3 was not done.

      Next session: Wed 7 Jan, 18:00. If tomorrow morning is bad, I will make it easier."
    `)
    expect(clinic.chart().session).toBeNull()
    expect(clinic.chart().history.at(-1)).toEqual({ on: '2026-01-05', setsDone: 2, setsAsked: 3, worstPain: 2, worstControl: 'steady' })
  })

  it('is that of the client, not of the therapist or the machine', () => {
    const plan = { ...extensionPlan, zone: 'America/St_Johns' }
    const clinic = new JoinedClinic({ plan })
    clinic.rig.moveTo('2026-01-05T21:30:00Z')
    clinic.begin()
    clinic.rig.moveTo('2026-01-06T03:29:59Z')
    expect(clinic.chart().session).not.toBeNull()
    clinic.rig.moveTo('2026-01-06T03:30:00Z')
    expect(clinic.chart().session).toBeNull()
  })

  it('leaves the symptom question open, and the next morning is asked all the same', () => {
    const clinic = inFirstSet()
    clinic.client.press('Done').write('6')
    clinic.rig.moveTo('2026-01-06T00:00:00Z')
    expect(clinic.chart().session).toBeNull()
    expect(clinic.asks).toBe('symptom.ask')
    // It was not asked anew in the night, and can still be answered where it stands.
    expect(clinic.client.button('None of these').data).toBe(`p:${clinic.chart().prompt?.number}:none`)
    clinic.client.skip()
    clinic.rig.moveTo('2026-01-06T09:00:00Z')
    expect(clinic.client.read()).toContain('Good morning.')
    clinic.client.write('2')
    expect(clinic.asks).toBe('symptom.ask')
  })

  it('closes a session that had only begun its safety check, without a word about a dose', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.press('Ready').skip()
    clinic.rig.moveTo('2026-01-06T00:00:00Z')
    expect(clinic.client.read()).toBe('The day is over, so I have closed your session. What you did counts.')
    expect(clinic.chart().session).toBeNull()
  })
})
