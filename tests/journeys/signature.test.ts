// Outside the demo nobody is enrolled, and nobody joins, under triage content that is not signed as it is.
import { describe, expect, it } from 'vitest'
import { clinicId } from '#src/chart/clinic.ts'
import { digestOf } from '#src/chart/digest.ts'
import type { SignatureState } from '#src/domain/signature.ts'
import { ClinicRig } from '#tests/support/clinic-rig.ts'
import { chartId, colleagues, inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'
import type { Person } from '#tests/support/person.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'
import { contentUnder, signature } from '#tests/support/signed-content.ts'

const signed: SignatureState = { kind: 'signed', by: signature }
const changed: SignatureState = { kind: 'changed', by: signature }
const closed: readonly SignatureState[] = [{ kind: 'unsigned' }, { kind: 'unusable' }, changed]

/** Maren at her desk, the content under this signature. */
function deskUnder(state: SignatureState): { readonly rig: ClinicRig; readonly maren: Person } {
  const { rig, maren } = new JoinedClinic()
  rig.startAgainWith(contentUnder(state))
  return { rig, maren: maren.skip() }
}

const answers = ['Noor Lindqvist', 'Europe/Dublin', '112', '116 117', '41', '120/80', 'none', '1', 'none', 'none'] as const
const equipment = ['none', 'none', 'none', 'yes', 'none', 'Novice: holds first', '1', '2', '2'] as const

describe('an enrolment at a desk', () => {
  it('does not begin while nobody has signed, and says who must and how', () => {
    const { rig, maren } = deskUnder({ kind: 'unsigned' })
    maren.write('enrol')
    expect(maren.read()).toMatchInlineSnapshot(`
      "Nobody can be enrolled now. Triage rules version 2026-11-27: signed by nobody yet.
      A licensed, registered clinician has to review these rules and sign them where Nuchal runs: "sign --show" prints them, "sign --name … --registration … --i-have-reviewed-it 2026-11-27" signs them. It counts from the next start. Clients who have joined go on as before."
    `)
    expect(rig.desk(colleagues.maren.desk).conversations).toEqual([])
  })

  it.each(closed)('does not begin by a button either under %j', (state) => {
    const { rig, maren } = deskUnder(state)
    maren.write('help').press('Enrol a client')
    expect(maren.read()).toContain('Nobody can be enrolled now.')
    expect(rig.desk(colleagues.maren.desk).conversations).toEqual([])
  })

  it('under signed content says with the invitation whose rules these are', () => {
    const { maren } = deskUnder(signed)
    maren.write('enrol', ...answers, ...equipment, 'mon', '18:00', '21:00-08:00', 'none', 'English').skip().press('Enrol')
    expect(maren.read()).toMatch(/ is enrolled\.[^]*\n\nTriage rules version \S+, signed by Saoirse Bly \(Invented register 4711\) on 2026-01-02\.$/)
  })

  it('begun under signed content enrols nobody once the content has changed, and keeps the answers', () => {
    const { rig, maren } = deskUnder(signed)
    maren.write('enrol', ...answers, ...equipment, 'mon', '18:00', '21:00-08:00', 'none', 'English').skip()
    rig.startAgainWith(contentUnder(changed))
    maren.press('Enrol')
    expect(maren.read()).toMatch(/^The triage rules in force are not signed, so nobody can be enrolled\./)
    rig.startAgainWith(contentUnder(signed))
    maren.press('Enrol')
    expect(maren.read()).toContain('Noor Lindqvist is enrolled.')
  })
})

describe('help at a desk', () => {
  it.each<readonly [SignatureState, RegExp]>([
    [{ kind: 'demo' }, /a demo with invented people, signed by nobody\./],
    [{ kind: 'unsigned' }, /signed by nobody yet\./],
    [{ kind: 'unusable' }, /the signature cannot be read\./],
    [changed, /changed since Saoirse Bly \(Invented register 4711\) signed version \S+ on 2026-01-02\./],
    [signed, /, signed by Saoirse Bly \(Invented register 4711\) on 2026-01-02\./],
  ])('says how the triage rules are signed: %j', (state, line) => {
    expect(deskUnder(state).maren.write('help').read()).toMatch(line)
  })
})

/** Orla is enrolled and has the invitation; the content is then under this signature. */
function invitedUnder(state: SignatureState): { readonly rig: ClinicRig; readonly orla: Person; readonly maren: Person } {
  const rig = new ClinicRig('2026-01-05T12:00:00Z').startAgainWith(contentUnder(signed))
  const [maren, orla] = [rig.person('maren'), rig.person('orla')]
  const { desk, ...card } = colleagues.maren
  rig.tell(desk, { kind: 'opened', contact: maren.contact, card })
  rig.tell(chartId, { kind: 'enrolled', plan: extensionPlan, therapist: colleagues.maren, second: null })
  rig.tell(clinicId, { kind: 'invited', digest: digestOf('an-invitation'), chart: chartId, expiresAt: rig.now + 7 * 24 * 3_600_000 })
  maren.skip()
  return { rig: rig.startAgainWith(contentUnder(state)), orla, maren }
}

describe('an invitation', () => {
  it.each(closed)('opens nothing under %j: the client is sent to the clinic, and the therapist is told', (state) => {
    const { rig, orla, maren } = invitedUnder(state)
    orla.open('an-invitation')
    expect(orla.read()).toMatch(/^Your invitation is fine, but nobody new can start right now\. Please ask your clinic/)
    expect(maren.read()).toMatch(/^Orla Tiernan wanted to join and was asked to speak with the clinic\./)
    expect(rig.chart(chartId)).toMatchObject({ standing: 'invited', contact: null })
  })

  it('stays good: once the content is signed, it opens', () => {
    const { rig, orla } = invitedUnder({ kind: 'unsigned' })
    orla.open('an-invitation')
    rig.startAgainWith(contentUnder(signed))
    orla.open('an-invitation').press('Go on', 'Yes', 'Yes', 'Yes')
    expect(rig.chart(chartId).standing).toBe('active')
  })

  it('opened before the content changed leads no further than the last question', () => {
    const { rig, orla, maren } = invitedUnder(signed)
    orla.open('an-invitation').press('Go on', 'Yes', 'Yes')
    rig.startAgainWith(contentUnder(changed))
    orla.skip().press('Yes')
    expect(orla.read()).toContain('nobody new can start right now')
    expect(maren.read()).toContain('wanted to join')
    expect(rig.chart(chartId)).toMatchObject({ standing: 'invited', timers: [] })
    expect(orla.write('hello').read()).toContain('nobody new can start right now')
    rig.startAgainWith(contentUnder(signed))
    orla.write('hello').press('Go on', 'Yes', 'Yes', 'Yes')
    expect(rig.chart(chartId).standing).toBe('active')
  })
})

describe('a client who has joined', () => {
  it.each(closed)('goes on training under %j, and signs alarm as ever', (state) => {
    const clinic = inFirstSet()
    clinic.rig.startAgainWith(contentUnder(state))
    clinic.doSets({ pain: 1 }, { pain: 1 })
    expect(clinic.chart().session?.sets.length).toBe(2)
    clinic.client.write('my face went numb')
    expect(clinic.chart().lock?.level).toBe('emergency')
    expect(clinic.maren.read()).toContain('EMERGENCY')
  })

  it('and has left may come back', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('I want to leave the programme')
    clinic.rig.store({ ...clinic.chart(), standing: 'withdrawn', conversations: [], prompt: null })
    clinic.rig.startAgainWith(contentUnder(changed))
    clinic.client.skip().write('ready').press('Go on', 'Yes', 'Yes', 'Yes')
    expect(clinic.chart().standing).toBe('active')
  })
})
