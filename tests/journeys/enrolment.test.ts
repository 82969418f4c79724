// From the clinic's first code to a client's changed dose, as both sides read it.
import { describe, expect, it } from 'vitest'
import { clinicId } from '#src/chart/clinic.ts'
import { digestOf } from '#src/chart/digest.ts'
import { ClinicRig } from '#tests/support/clinic-rig.ts'
import type { Person } from '#tests/support/person.ts'

/** A therapist who has claimed the clinic and settled in, on Monday noon in Dublin. */
function claimedClinic(): { readonly rig: ClinicRig; readonly maren: Person; readonly orla: Person } {
  const rig = new ClinicRig('2026-01-05T12:00:00Z')
  rig.submit(clinicId, { kind: 'claim-issued', digest: digestOf('K7QM-2RXD') })
  const maren = rig.person('maren')
  maren.write('k7qm-2rxd ', 'Maren Holt', 'Europe/Dublin', 'mon-fri', '08:00-18:00').skip()
  return { rig, maren, orla: rig.person('orla') }
}

const toAge = ['enrol', 'Orla Tiernan', 'Europe/Dublin', '112', '020 913 0104']
const equipment = ['0.25 0.25 0.5 0.5 1', '0.4', 'light: 10 cm 8 N, 60 cm 24 N', 'no', 'yes', '30']
const toLadders = ['1', 'none', 'none', ...equipment, 'Novice: holds first']
const schedule = ['mon, wed, fri', '18:00', '21:00-08:00', '1', 'English']
/** Extension alone, from the seated hold to the harness. */
const afterGate = [...toLadders, '1', '2', '4', '2', '120 N', ...schedule]

/** The link stands in the last line of the message that hands the invitation over. */
function tokenIn(text: string): string {
  return /https:\/\/chat\.example\/(\S+)/.exec(text)?.[1] ?? ''
}

describe('the first therapist of a clinic', () => {
  it('claims it with the code, is asked four things, and is then at home', () => {
    const rig = new ClinicRig('2026-01-05T12:00:00Z')
    rig.submit(clinicId, { kind: 'claim-issued', digest: digestOf('K7QM-2RXD') })
    const maren = rig.person('maren')
    maren.write('hello', 'K7QM-2RXD', 'Maren Holt', 'CET', 'Europe/Dublin', 'mon-fri', '08:00-18:00')
    expect(maren.read()).toMatchInlineSnapshot(`
      "Hello. I only talk with people who have an invitation. If you train your neck with a therapist who uses me, ask them for your invitation link and open it here. I have stored nothing. I am no emergency service: in an emergency call your local emergency number.
      ---
      You are now a therapist of this clinic. What name should your clients see?
      ---
      Which time zone are you in? Area and city, as in Europe/Dublin.
      ---
      Short names such as CET do not say when the clocks change.

      For example: Europe/Dublin

      Which time zone are you in? Area and city, as in Europe/Dublin.
      ---
      On which days are you on duty?
      ---
      From when to when are you on duty?
      ---
      Thank you, Maren Holt. Write "enrol" to enrol a client, "clients" to look at one, "measure" to enter a strength test, "invite" to bring in a colleague, "help" for help."
    `)
  })

  it('is the only one whom the code lets in', () => {
    const { rig } = claimedClinic()
    const stranger = rig.person('stranger').write('K7QM-2RXD')
    expect(stranger.read()).toMatch(/^Hello\. I only talk with people who have an invitation\./)
    expect(rig.clinic().therapists.map(({ name }) => name)).toEqual(['Maren Holt'])
  })
})

describe('an enrolment by questions', () => {
  it('is read back before it counts, and hands over an invitation', () => {
    const { maren } = claimedClinic()
    maren.write(...toAge, '34', '122/78', 'none', ...afterGate)
    expect(maren.messages.at(-1)?.text).toMatchInlineSnapshot(`
      "Please check before it counts:
      Client: Orla Tiernan
      Time zone: Europe/Dublin
      Emergency number: 112
      Out of hours: 020 913 0104
      Age: 34
      Blood pressure: 122/78
      Conditions: –
      Usual pain: 1
      Known signs: –
      Restrictions: –
      Plates: 0.25, 0.25, 0.5, 0.5, 1 kg
      Harness: 0.4 kg
      Bands: light: 10 cm 8 N, 60 cm 24 N
      Steady support: Yes
      Step: 30 cm
      Protocol: Novice: holds first
      Trains extension: rung 2 to 4; shown: Seated head press, two hands; measured: extension 120 N
      Sessions: Mon, Wed, Fri 18:00
      Quiet: 21:00–08:00
      Second contact: –"
    `)
    maren.skip().press('Enrol')
    expect(maren.read()).toMatchInlineSnapshot(`
      "Orla Tiernan is enrolled. Pass this link on to nobody but Orla Tiernan. It works once, until Mon 12 Jan, 12:00:
      https://chat.example/token-35

      Triage rules version 2026-11-27: a demo with invented people, signed by nobody."
    `)
  })

  it('leads the client from consent to the first session, the next morning and the next dose', () => {
    const { rig, maren, orla } = claimedClinic()
    maren.write(...toAge, '34', '122/78', 'none', ...afterGate).press('Enrol')
    orla.open(tokenIn(maren.read())).press('Go on', 'Yes', 'Yes', 'Yes')
    expect(orla.messages.at(-1)?.text).toBe(
      'Thank you, all set. Your first session: Mon 5 Jan, 18:00. You can write "help" at any time. In an emergency call 112.',
    )
    expect(maren.read()).toBe('Orla Tiernan has joined: time zone Europe/Dublin, sessions at 18:00.')
    rig.moveTo('2026-01-05T18:00:00Z')
    orla.press('Ready', 'None of these').write('1').press('Done').skip()
    for (let set = 1; set <= 3; set += 1) orla.press('Done').write('1').press('No').write('3')
    expect(orla.messages.at(-1)?.text).toMatchInlineSnapshot(`
      "That was your session. Well done.
      • two-hand press: 3 of 3 sets done

      Next time: one small step up.
      two-hand press: 3 sets of 5 holds of 6 seconds, push 3 out of 10.
      Why: Every set was clean, with something left.

      Next session: Wed 7 Jan, 18:00. If tomorrow morning is bad, I will make it easier.

      One last thing: how hard was the whole session? 0 is rest, 3 is moderate, 5 is hard, 7 is very hard, 10 is as hard as it can get."
    `)
    orla.write('4').skip()
    rig.moveTo('2026-01-06T08:00:00Z')
    orla.write('0')
    expect(orla.read()).toMatchInlineSnapshot(`
      "Good morning. How bad was the pain in your neck, head or arm last night and this morning, at its worst? 0 is none, 10 is the worst you can think of.
      ---
      Thank you.

      Next time: one small step up.
      two-hand press: 3 sets of 5 holds of 6 seconds, push 3 out of 10.
      Why: Every set was clean, with something left.

      Next session: Wed 7 Jan, 18:00."
    `)
    rig.moveTo('2026-01-07T18:00:00Z')
    orla.press('Ready', 'None of these').write('0').write('1').press('Done')
    expect(orla.messages.at(-1)?.text).toContain('Set 1 of 3 – two-hand press: 5 holds of 6 seconds, push 3 out of 10')
  })

  it('takes a typed rung as that rung, not as a place in the list', () => {
    const { maren } = claimedClinic()
    maren.write(...toAge, '34', '122/78', 'none', ...toLadders, '1', '2', '3', '2', 'none', ...schedule)
    expect(maren.messages.at(-1)?.text).toContain('Trains extension: rung 2 to 3; ')
  })

  it('asks about each direction in turn, the two sides together, and passes over what has one answer', () => {
    const { maren } = claimedClinic()
    maren.write(...toAge, '34', '122/78', 'none', ...toLadders, '1, 3, 5').skip()
    maren.write('2', '3', '2', '112, 118 N at 14 cm').write('2', '3', '2', '96 N', '90 N').write('1', '1', '1')
    const asked = maren.read().split('\n---\n').map((text) => text.split('\n')[0])
    expect(asked).toMatchInlineSnapshot(`
      [
        "For extension: up to which rung may the rules take the client?",
        "For extension: which exercises have you shown in person, with the set-up checked? Press all that apply, then the last button.",
        "Maximal isometric force, extension? Type every trial with its unit, and the lever arm if you know it.",
        "For side bending: on which rung does the client start?",
        "For side bending: up to which rung may the rules take the client?",
        "For side bending: which exercises have you shown in person, with the set-up checked? Press all that apply, then the last button.",
        "Maximal isometric force, side bending, left? Type every trial with its unit, and the lever arm if you know it.",
        "Maximal isometric force, side bending, right? Type every trial with its unit, and the lever arm if you know it.",
        "For deep neck flexors: on which rung does the client start?",
        "For deep neck flexors: up to which rung may the rules take the client?",
        "For deep neck flexors: which exercises have you shown in person, with the set-up checked? Press all that apply, then the last button.",
        "On which days should the client train?",
      ]
    `)
    maren.write(...schedule)
    const lines = maren.messages.at(-1)?.text.split('\n').filter((line) => line.startsWith('Trains'))
    expect(lines).toMatchInlineSnapshot(`
      [
        "Trains extension: rung 2 to 3; shown: Seated head press, two hands; measured: extension 118 N at 14 cm",
        "Trains side bending: rung 2 to 3; shown: Seated side press; measured: side bending, left 96 N; side bending, right 90 N",
        "Trains deep neck flexors: rung 1 to 1; shown: Gentle chin nods; measured: none",
      ]
    `)
  })

  it('goes back from one direction to the one before, and keeps those before it', () => {
    const { rig, maren } = claimedClinic()
    maren.write(...toAge, '34', '122/78', 'none', ...toLadders, '1, 2', '2', '3', '2', '120 N').write('back', '2', '4', '2', '130 N')
    const { desk } = rig.clinic().therapists[0]!
    expect(rig.desk(desk).conversations.at(-1)?.data['ladder-plans']).toEqual([
      { ladder: 'extension', rung: 2, maxRung: 4, shown: ['seated-hold-two-hands'], measured: [{ trials: [130], unit: 'N', leverCm: null }] },
    ])
    expect(maren.messages.at(-1)?.text).toContain('For flexion: on which rung')
    maren.write('back', 'back')
    expect(maren.messages.at(-1)?.text).toContain('Which directions does the client train?')
  })

  it('asks again for a maximum that can hardly be right', () => {
    const { maren } = claimedClinic()
    maren.write(...toAge, '34', '122/78', 'none', ...toLadders, '1', '2', '4', '2', '1900000 N')
    expect(maren.messages.at(-1)?.text).toContain('ten times what is usual, or more')
    maren.write('0 N')
    expect(maren.messages.at(-1)?.text).toContain('0 N is no force')
    maren.write('120 N')
    expect(maren.messages.at(-1)?.text).toContain('On which days')
  })

  it('offers only rungs that equipment, restrictions and screening leave open', () => {
    const { maren } = claimedClinic()
    maren.write(...toAge, '70', '122/78', 'none', '-', ...toLadders, '1').skip()
    expect(maren.messages.at(-1)?.buttons.map(({ label }) => label)).toEqual([
      '1. Side-lying head press',
      '2. Seated head press, two hands',
      '3. Seated head pull with a band',
    ])
  })

  it('needs at least one direction', () => {
    const { maren } = claimedClinic()
    maren.write(...toAge, '34', '122/78', 'none', ...toLadders, 'none')
    expect(maren.messages.at(-1)?.text).toMatch(/^Please choose at least one direction\.\n\nWhich directions/)
  })

  it('goes back to an earlier question without losing the others, and leaves nothing behind when left', () => {
    const { rig, maren } = claimedClinic()
    maren.write(...toAge.slice(0, 3)).write('back', 'Europe/Athens', '112', '166').skip()
    expect(rig.desk(rig.clinic().therapists[0]?.desk as never).conversations.at(-1)?.data).toEqual({
      name: 'Orla Tiernan',
      zone: 'Europe/Athens',
      'emergency-number': '112',
      'out-of-hours-number': '166',
    })
    maren.write('stop')
    expect(maren.read()).toContain('Left. Nothing was saved.')
    expect(rig.clinic().invitations).toEqual([])
  })

  it('does not take a plan that cannot be used, and says why', () => {
    const { maren } = claimedClinic()
    const answers = [...toLadders, '1', '2', '4', 'none', '120 N', 'mon, wed, fri', '22:00', '21:00-08:00', '1', 'English']
    maren.write(...toAge, '34', '122/78', 'none', ...answers).skip().press('Enrol')
    expect(maren.read().split('\n\n').slice(0, 2)).toEqual([
      'extension: the starting exercise has not been marked as shown in person. Go back and mark it, or start lower.',
      'The session time lies in the quiet hours. Go back and change one of them.',
    ])
  })
})

describe('an enrolment that is refused', () => {
  const title = 'This client cannot be enrolled:'
  it.each([
    ['under 16', ['15', '122/78', 'none'], 'Age 15: the lowest is 16.'],
    ['at 16 without a guardian’s consent', ['16', '122/78', 'none', 'no'], 'Age 16: under 18 a guardian’s consent is needed.'],
    // Williams 2007 (American Heart Association): no resistance training above 180/110; the figure itself counted in by us.
    ['at 180 systolic', ['34', '180/80', 'none'], 'Blood pressure 180/80.'],
    ['at 110 diastolic', ['34', '122/110', 'none'], 'Blood pressure 122/110.'],
    ['after neck surgery without clearance', ['34', '122/78', 'neck surgery', 'done', 'no'], 'Neck surgery: the surgeon’s clearance is not recorded.'],
    ['with a fracture within 6 months', ['34', '122/78', '1'], 'Fracture within 6 months.'],
    ['for two reasons', ['15', '185/90', 'none'], 'Age 15: the lowest is 16.\nBlood pressure 185/90.'],
  ])('%s says so and keeps nothing', (_title, answers, reason) => {
    const { rig, maren } = claimedClinic()
    maren.write(...toAge).write(...answers)
    expect(maren.messages.at(-1)?.text).toContain(`${title}\n${reason}`)
    expect(rig.clinic().invitations).toEqual([])
    expect(rig.entries.filter((entry) => entry.kind === 'enrolled')).toEqual([])
  })

  it.each([
    ['at 16 with a guardian’s consent', ['16', '122/78', 'none', 'yes'], 'The client’s usual pain'],
    ['at 179/109, limited to holds and band', ['34', '179/109', 'none'], 'These answers limit the client to holds and band.'],
    ['after neck surgery with clearance', ['34', '122/78', 'neck surgery', 'done', 'yes'], 'The client’s usual pain'],
    ['at 64', ['64', '159/99', 'none'], 'The client’s usual pain'],
    ['at 65, limited to holds and band', ['65', '159/99', 'none'], 'These answers limit the client to holds and band.'],
  ])('%s goes on instead', (_title, answers, next) => {
    const { maren } = claimedClinic()
    maren.write(...toAge).write(...answers)
    expect(maren.messages.at(-1)?.text).toContain(next)
  })
})

describe('an invitation', () => {
  function invited() {
    const clinic = claimedClinic()
    clinic.maren.write(...toAge, '34', '122/78', 'none', ...afterGate).press('Enrol')
    return { ...clinic, token: tokenIn(clinic.maren.read()) }
  }
  const unusable = 'This invitation cannot be used. It may have been used before or be too old. Please ask your therapist for a new one.'

  it('opens once: a second chat cannot use it, and the first is told that it is already in use', () => {
    const { rig, orla, token } = invited()
    orla.open(token).skip().open(token)
    expect(orla.read()).toBe('This chat is already in use here. An invitation opens a new chat only.')
    expect(rig.person('finder').open(token).read()).toBe(unusable)
  })

  it('opens in the last minute of its week', () => {
    const { rig, orla, token } = invited()
    rig.pass({ days: 6, hours: 23, minutes: 59 })
    expect(orla.open(token).read()).toContain('Hello Orla Tiernan. I am Nuchal.')
  })

  it('cannot be used when its week is over', () => {
    const { rig, orla, token } = invited()
    rig.pass({ days: 7 })
    expect(orla.open(token).read()).toBe(unusable)
  })

  it('that was altered or made up opens nothing', () => {
    const { rig, orla, token } = invited()
    for (const other of [`${token}x`, token.slice(1), '', 'claim', token.toUpperCase()]) expect(orla.skip().open(other).read()).toBe(unusable)
    expect(rig.clinic().invitations.map(({ usedAt }) => usedAt)).toEqual([null])
  })

  it('is stored as a digest only', () => {
    const { rig, token } = invited()
    expect(JSON.stringify([rig.clinic(), rig.entries])).not.toContain(token)
    expect(rig.clinic().invitations.map(({ digest }) => digest)).toEqual([digestOf(token)])
  })
})

describe('known signs at an enrolment', () => {
  const toKnownSigns = [...toAge, '34', '122/78', 'none', '1'] as const

  it('are described one by one, in words, with side, area and worst level, and read back', () => {
    const { rig, maren } = claimedClinic()
    maren.write(...toKnownSigns).skip().write('1, 5')
    expect(maren.read()).toBe(
      'About “New or spreading numbness or tingling of an arm or hand”: in the client’s words, the side (left, right, both or none), where, and the worst level 0 to 10. With commas between.',
    )
    maren.write('tingling, left')
    expect(maren.read()).toContain('For example: tingling, left, forearm and thumb, 4')
    maren.write('tingling, left, forearm and thumb, 4', 'wobbly, none, legs, 2', 'none', ...equipment, 'Novice: holds first', '1', '2', '4', '2', '120 N', ...schedule)
    expect(maren.messages.at(-1)?.text).toContain(
      'Known signs: New or spreading numbness or tingling of an arm or hand: “tingling”, left, forearm and thumb, worst 4/10; Unsteady walking: “wobbly”, no side, legs, worst 2/10\n',
    )
    const orla = rig.person('orla').open(tokenIn(maren.skip().press('Enrol').read())).press('Go on', 'Yes', 'Yes', 'Yes')
    orla.skip().write('my arm is tingling')
    expect(orla.read()).toMatch(/^Your therapist knows that you have this: tingling\. Is it as usual/)
  })

  it('are five at most', () => {
    const { maren } = claimedClinic()
    maren.write(...toKnownSigns).skip().write('1, 2, 3, 4, 5, 6')
    expect(maren.read()).toMatch(/^Those are 6, and 5 is the most\.[^]*\n\nLong-standing signs that you know about\?/)
    maren.write('1, 2, 3, 4, 5')
    expect(maren.read()).toMatch(/^About “/)
  })

  it('are never an emergency, a blow or a change at a wound', () => {
    const { maren } = claimedClinic()
    maren.write(...toKnownSigns)
    const labels = maren.messages.at(-1)?.buttons.map(({ label }) => label)
    expect(labels).toMatchInlineSnapshot(`
      [
        "New or spreading numbness or tingling of an arm or hand",
        "Weakness growing slowly",
        "Clumsy or numb hands on both sides",
        "Electric shock on bending the neck",
        "Unsteady walking",
        "Light-headed or sick, settling within 2 minutes, no other sign",
        "New head or neck pain unlike any before",
        "New pulsing noise in the ear",
        "None of these",
      ]
    `)
  })

  it('begin anew when the therapist goes back to which they are', () => {
    const { maren } = claimedClinic()
    maren.write(...toKnownSigns, '1, 5', 'tingling, left, forearm and thumb, 4', 'back', '5').skip()
    maren.write('wobbly, none, legs, 2', 'none', ...equipment, 'Novice: holds first', '1', '2', '4', '2', '120 N', ...schedule)
    expect(maren.messages.at(-1)?.text).toContain('Known signs: Unsteady walking: “wobbly”, no side, legs, worst 2/10\n')
  })
})

describe('an enrolment begun when one direction was asked about', () => {
  it('goes on with the protocol and the directions, and keeps what was answered before', () => {
    const { rig, maren } = claimedClinic()
    maren.write(...toAge, '34', '122/78', 'none', '1', 'none', 'none', ...equipment)
    const { desk } = rig.clinic().therapists[0]!
    const [top] = rig.desk(desk).conversations
    rig.store({ ...rig.desk(desk), conversations: [{ ...top!, version: 1, state: 'shown', data: { ...top!.data, measurement: 120, rung: '2', 'max-rung': '4' } }] })
    maren.write('2')
    expect(rig.desk(desk).conversations.at(-1)).toMatchObject({ flow: 'enrolment', version: 3, state: 'protocol', data: { name: 'Orla Tiernan', step: 30 } })
    maren.write('Novice: holds first', '1', '2', '4', '2', '120 N', ...schedule).skip().press('Enrol')
    expect(maren.read()).toContain('Orla Tiernan is enrolled.')
  })
})
