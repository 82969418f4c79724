// An emergency sign in words, in the middle of a set: read as the client and as the therapist who is woken by it.
import { describe, expect, it } from 'vitest'
import { JoinedClinic } from '#tests/support/joined-clinic.ts'

/** Monday: a clean session. Wednesday, 18:00: the first set done, in the second the face goes numb. */
function inAnEmergency(words = 'my face just went numb'): JoinedClinic {
  const clinic = new JoinedClinic()
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.train().rig.moveTo('2026-01-07T18:00:00Z')
  clinic.begin().doSet({ pain: 2, moved: 'A little', reserve: 1 }).readAll()
  clinic.client.write(words)
  return clinic
}

const called = 'Have you or somebody with you called 112?\n[Called] [I cannot call]'

describe('an emergency sign in the middle of a set', () => {
  it('stops everything and tells the client what to do, with the number of the plan', () => {
    const { client } = inAnEmergency()
    expect(client.read()).toMatchInlineSnapshot(`
      "Stop. Put the weight down. Sit or lie down.
      This can be serious. Call 112 now, or have somebody call for you.
      Do not drive. Do not wait for an answer here: nobody may be reading this.

      Have you or somebody with you called 112?
      [Called] [I cannot call]"
    `)
  })

  it('tells the therapist who, what, when for both, what was going on, what the client read, and what came before', () => {
    const { maren } = inAnEmergency()
    expect(maren.read()).toMatchInlineSnapshot(`
      "⚠ EMERGENCY – Orla Tiernan
      Numbness of the face or of one half of the body
      Client’s words: “my face just went numb”
      Taken for a sign: “face just went numb”
      When: Wed 7 Jan, 18:00 (Europe/Dublin); your time Wed 7 Jan, 18:00 (Europe/Dublin)
      During: set 2 of 3 – two-hand press: 5 holds of 5 seconds, push 3 out of 10
      Client was told:
      Stop. Put the weight down. Sit or lie down.
      This can be serious. Call 112 now, or have somebody call for you.
      Do not drive. Do not wait for an answer here: nobody may be reading this.
      Last sessions: 2026-01-07: 1/3 sets, worst pain 2, control shaky; 2026-01-05: 3/3 sets, worst pain 1, control steady
      Client’s numbers: emergency 112, out of hours 020 913 0104
      [Acknowledge] [I have spoken with the client] [Clear the lock …]"
    `)
  })

  it('goes out before anything else, to client and therapist', () => {
    const { client, maren } = inAnEmergency()
    expect([client.messages.at(-1)?.urgency, maren.messages.at(-1)?.urgency]).toEqual(['alert', 'alert'])
  })

  it('shows a reader in another zone their own time beside the client’s', () => {
    const clinic = inAnEmergency()
    clinic.rig.pass({ minutes: 20 })
    expect(clinic.idris.read()).toContain('When: Wed 7 Jan, 18:00 (Europe/Dublin); your time Wed 7 Jan, 20:00 (Europe/Athens)')
  })

  it('takes the buttons off the set and ends the session, with the answers kept', () => {
    const clinic = inAnEmergency()
    expect(clinic.client.messages.flatMap(({ buttons }) => buttons.map(({ label }) => label))).toEqual(['Called', 'I cannot call'])
    expect(clinic.chart().session).toBeNull()
    expect(clinic.entries('set').slice(-2).map((entry) => entry.data.report)).toEqual([
      { pain: 2, control: 'shaky', reserve: 1, finished: true },
      null,
    ])
    expect(clinic.entries('decision').at(-1)?.data).toMatchObject({ direction: 'extension', kind: 'stop' })
  })

  it('locks: no reminder, no check-in and no session until a person has cleared it', () => {
    const clinic = inAnEmergency()
    clinic.client.press('Called')
    clinic.readAll()
    clinic.maren.press('Acknowledge', 'I have spoken with the client')
    clinic.rig.pass({ days: 6 })
    expect(clinic.client.read()).toBe('')
    clinic.client.write('ready')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Your training is paused until your therapist has spoken with you. I have passed on what you wrote, but nobody may be reading it right now.
      If you need somebody and hear nothing, call 020 913 0104. If it gets worse or feels like an emergency, call 112 now."
    `)
    expect(clinic.asks).toBeNull()
    expect(clinic.maren.read()).toContain('Orla Tiernan wrote while training is paused: “ready”')
  })
})

describe('whether help was called', () => {
  it('is asked at once and again after 5 and after 15 minutes for as long as it is open', () => {
    const clinic = inAnEmergency()
    clinic.client.skip()
    const read = ['2026-01-07T18:04:59Z', '2026-01-07T18:05:00Z', '2026-01-07T18:14:59Z', '2026-01-07T18:15:00Z', '2026-01-07T19:00:00Z'].map((at) => {
      clinic.rig.moveTo(at)
      return clinic.client.read()
    })
    expect(read).toEqual(['', called, '', called, ''])
  })

  it('is shown to the therapist and not asked again once it is answered', () => {
    const clinic = inAnEmergency()
    clinic.readAll()
    clinic.client.press('Called')
    expect(clinic.client.read()).toBe('Good. Stay where you are and do what they tell you.')
    expect(clinic.maren.read()).toContain('Client since: says that help has been called')
    clinic.rig.pass({ minutes: 30 })
    expect(clinic.client.read()).toBe('')
  })

  it('leads to other ways of getting help where the client cannot call, which the therapist sees', () => {
    const clinic = inAnEmergency()
    clinic.readAll()
    clinic.client.write("I can't call")
    expect(clinic.client.read()).toMatchInlineSnapshot(`"Shout for somebody near you, bang on a wall or open the door. Anyone can call 112 for you. I have told your therapist that you cannot call."`)
    expect(clinic.maren.read()).toContain('Client since: CANNOT CALL for help')
  })

  it.each(['no', 'not yet', 'stop', 'not today', 'what?'])('stays open at "%s"', (text) => {
    const clinic = inAnEmergency()
    clinic.client.skip().write(text)
    expect(clinic.client.read()).toContain(called)
    expect(clinic.asks).toBe('called.called')
  })

  it('is not lost when a second, lesser sign is told', () => {
    const clinic = inAnEmergency()
    clinic.client.skip().write('and my arm is tingling')
    expect(clinic.asks).toBe('called.called')
    expect(clinic.chart().lock?.level).toBe('emergency')
    expect(clinic.client.read()).toContain(called)
  })
})

describe('words that need another answer than "put the weight down"', () => {
  it('are met as what they are: thoughts of self-harm', () => {
    expect(inAnEmergency('I want to kill myself').client.read()).toMatchInlineSnapshot(`
      "Thank you for telling me. You matter, and you do not have to be alone with this.
      Please call 112 now, or go to somebody near you and tell them. Keep away from anything you could hurt yourself with.
      We leave the training for now. Do not wait for an answer here: nobody may be reading this.

      Have you or somebody with you called 112?
      [Called] [I cannot call]"
    `)
  })

  it('are met as what they are: being hurt by somebody', () => {
    expect(inAnEmergency('my husband beats me').client.read()).toMatchInlineSnapshot(`
      "I am sorry that this is happening to you. It is not your fault.
      If you are in danger or hurt, get to a safe place if you can and call 112 now. Do not wait for an answer here: nobody may be reading this.
      We leave the training for now. If somebody else can see your phone, you may want to delete these messages.

      Have you or somebody with you called 112?
      [Called] [I cannot call]"
    `)
  })
})

describe('an emergency outside a session', () => {
  it('is taken the same way, in the night, without a word about duty', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-06T03:00:00Z')
    clinic.client.write('I cannot see out of one eye')
    expect(clinic.client.read()).toContain('Call 112 now')
    expect(clinic.maren.read()).toContain('⚠ EMERGENCY – Orla Tiernan')
    expect(clinic.maren.messages.at(-1)?.text).not.toContain('During:')
  })

  it('is heard from a client who has not agreed yet, and the question of consent stays', () => {
    const clinic = new JoinedClinic()
    clinic.rig.store({ ...clinic.chart(), standing: 'invited', conversations: [{ flow: 'consent', version: 1, state: 'agree', data: {} }] })
    clinic.client.write('my chest hurts badly and I cannot breathe')
    expect(clinic.chart().lock?.level).toBe('emergency')
    clinic.client.press('Called')
    expect(clinic.asks).toBe('consent.agree')
  })

  it('is heard in an earlier message that is written anew', () => {
    const clinic = new JoinedClinic()
    clinic.client.edit('my face is drooping')
    expect(clinic.chart().lock?.level).toBe('emergency')
  })
})
