// A therapist changes what is prescribed: another plan, or a dose set by hand.
import { describe, expect, it } from 'vitest'
import type { Plan } from '#src/domain/plan.ts'
import { newLadderState } from '#src/rules/ladder-state.ts'
import { chartId, colleagues, JoinedClinic } from '#tests/support/joined-clinic.ts'
import { allDirectionsPlan, chainFor, extensionPlan, nameOf, placeNamed } from '#tests/support/sample-chain.ts'

const chain = chainFor(extensionPlan)
const everyDirection: Plan = { ...allDirectionsPlan, client: extensionPlan.client }

function only(plan: Plan, ...directions: readonly string[]): Plan {
  return { ...plan, ladders: plan.ladders.filter(({ direction }) => directions.includes(direction)) }
}

function amend(clinic: JoinedClinic, plan: Plan): void {
  const by = { desk: colleagues.maren.desk, name: 'Maren Holt' }
  clinic.rig.tell(chartId, { kind: 'amended', plan, by, reason: 'seen today', therapist: colleagues.maren, second: colleagues.idris })
}

/** Orla stands on her extension ladder as if she had trained up to it. */
function standingAt(name: string, plan: Plan = extensionPlan): JoinedClinic {
  const clinic = new JoinedClinic({ plan })
  clinic.rig.store({ ...clinic.chart(), states: { extension: newLadderState(placeNamed(chainFor(plan), name)) } })
  return clinic
}

function placeOf(clinic: JoinedClinic): string | undefined {
  const state = clinic.chart().states.extension
  return state && nameOf(state.place)
}

/** The name of the session's first set. */
function firstSet(clinic: JoinedClinic): string {
  clinic.begin()
  return /Set 1 of \d – (.*)/.exec(clinic.client.messages.at(-1)?.text ?? '')?.[1] ?? ''
}

function finish(clinic: JoinedClinic): void {
  while (clinic.asks === 'session.set') clinic.doSet()
  while (clinic.asks !== null) clinic.client.write('skip')
}

/** After one clean session. */
function trainedOnMonday(plan = extensionPlan): JoinedClinic {
  const clinic = new JoinedClinic({ plan })
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.begin()
  finish(clinic)
  return clinic
}

describe('another plan', () => {
  it('keeps what stays, starts what is new at its entry, stops what is gone, and tells both once', () => {
    const clinic = new JoinedClinic({ plan: only(everyDirection, 'extension', 'flexion') })
    const extension = newLadderState(placeNamed(chainFor(everyDirection), '2 3 × 5 × 8 s, push 3'))
    clinic.rig.store({ ...clinic.chart(), states: { extension } })
    clinic.readAll()
    amend(clinic, only(everyDirection, 'extension', 'lateral-flexion-left', 'lateral-flexion-right'))
    expect(clinic.chart().states).toEqual({ extension })
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Your therapist has changed your plan. It counts from your next session.
      New: side bending.
      No longer: flexion.
      If you have a question about it, ask your therapist."
    `)
    expect(clinic.maren.read()).toMatchInlineSnapshot(`
      "Orla Tiernan: plan changed by Maren Holt. Reason: seen today. It counts from the next session.
      extension: rung 2, two-hand press: 3 sets of 5 holds of 8 seconds, push 3 out of 10, as before
      flexion: rung 2, forehead press: 3 sets of 5 holds of 5 seconds, push 3 out of 10 → –
      side bending: – → rung 2, Seated side press: 3 sets of 5 holds of 5 seconds on each side, push 3 out of 10"
    `)
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.begin()
    expect(clinic.chart().session?.prescribed.map(({ direction, place }) => `${direction} ${nameOf(place)}`).toSorted()).toEqual([
      'extension 2 3 × 5 × 8 s, push 3',
      'lateral-flexion-left 2 3 × 5 × 5 s, push 3',
      'lateral-flexion-right 2 3 × 5 × 5 s, push 3',
    ])
  })

  it('is recorded with who and why, and counts as a review', () => {
    const clinic = new JoinedClinic()
    clinic.rig.pass({ days: 3 })
    amend(clinic, only(everyDirection, 'extension'))
    expect(clinic.entries('plan-amended').map(({ by, data }) => [by, data.reason])).toEqual([['Maren Holt', 'seen today']])
    expect(clinic.chart().reviewedAt).toBe(clinic.rig.now)
  })

  it('that names another rung to start on starts there', () => {
    const clinic = standingAt('2 3 × 5 × 10 s, push 5')
    amend(clinic, { ...extensionPlan, ladders: extensionPlan.ladders.map((own) => ({ ...own, rung: 1 })) })
    expect(placeOf(clinic)).toBe(nameOf(chain.places.find((place) => place.rung === 1 && place.isEntry)!))
  })

  it('without the harness brings the dose down to what the client still has', () => {
    const harness = chain.places.findLast((place) => place.rung === 4)!
    const clinic = standingAt(nameOf(harness))
    const plan: Plan = { ...extensionPlan, equipment: { ...extensionPlan.equipment, harnessKg: null } }
    amend(clinic, plan)
    expect(placeOf(clinic)).toBe(nameOf(chainFor(plan).places.findLast((place) => place.rung <= 4)!))
  })

  it('waits while a session is open, which goes on under the old one', () => {
    const clinic = new JoinedClinic({ plan: only(everyDirection, 'extension') })
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    const before = firstSet(clinic)
    clinic.readAll()
    amend(clinic, only(everyDirection, 'flexion'))
    expect([clinic.maren.read(), clinic.client.read()]).toEqual([expect.stringContaining('A session is open: the new plan counts from the next one.'), ''])
    clinic.doSet()
    expect(clinic.client.messages.at(-1)?.text).toContain(before)
    finish(clinic)
    expect(clinic.chart().plan?.ladders.map(({ direction }) => direction)).toEqual(['flexion'])
    expect(clinic.client.read()).toContain('Your therapist has changed your plan.')
    clinic.rig.moveTo('2026-01-07T18:00:00Z')
    expect(firstSet(clinic)).toMatch(/^forehead/)
  })

  it('decides what was trained before it, and asks no morning for what has stopped', () => {
    const clinic = trainedOnMonday(only(everyDirection, 'extension', 'flexion'))
    amend(clinic, only(everyDirection, 'extension'))
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    expect(clinic.asks).toBe('morning.pain')
    clinic.client.write('1')
    clinic.rig.moveTo('2026-01-07T18:00:00Z')
    clinic.begin()
    expect(clinic.chart().lastDecisions.map(({ ladder, decision }) => [ladder, decision.kind])).toEqual([['extension', 'progress']])
    const gone = new JoinedClinic({ plan: only(everyDirection, 'extension') })
    gone.rig.moveTo('2026-01-05T18:00:00Z')
    gone.begin()
    finish(gone)
    amend(gone, only(everyDirection, 'flexion'))
    gone.rig.moveTo('2026-01-06T12:00:00Z')
    expect(gone.asks).toBeNull()
  })

  it('takes the new time of day from the next reminder on', () => {
    const clinic = new JoinedClinic()
    amend(clinic, { ...extensionPlan, schedule: { ...extensionPlan.schedule, days: ['tue', 'thu'], time: '07:30', quiet: { from: '21:00', to: '07:00' } } })
    expect(clinic.client.messages.at(-1)?.text).toContain('Your sessions: Tue, Thu at 07:30.')
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    expect(clinic.asks).toBeNull()
    clinic.rig.moveTo('2026-01-06T07:30:00Z')
    expect(clinic.asks).toBe('session.ready')
  })

  it('ends what was permitted for an exercise that the rung has no more', () => {
    const clinic = new JoinedClinic()
    const at = clinic.rig.now
    clinic.rig.store({ ...clinic.chart(), approvals: [{ ladder: 'extension', rung: 4, at }, { ladder: 'extension', rung: 3, at }] })
    amend(clinic, { ...extensionPlan, equipment: { ...extensionPlan.equipment, harnessKg: null } })
    expect(clinic.chart().approvals).toEqual([{ ladder: 'extension', rung: 3, at }])
  })
})

describe('a dose set by hand', () => {
  /** The newest button that names this. */
  function offered(clinic: JoinedClinic, part: string): string {
    const labels = clinic.maren.messages.at(-1)?.buttons.map((button) => button.label) ?? []
    const found = labels.find((label) => label.includes(part))
    if (found === undefined) throw new Error(`no dose with “${part}” among ${labels.join('; ')}`)
    return found
  }

  function choose(clinic: JoinedClinic, part: string): void {
    clinic.maren.write('clients').press('Orla Tiernan', 'Set a dose by hand')
    clinic.maren.press(offered(clinic, part)).write('flare-up').skip()
  }

  function place(clinic: JoinedClinic, part: string): void {
    choose(clinic, part)
    clinic.maren.press('Set it')
  }

  it('is chosen from what is on offer, reasoned, read back, and told to the client', () => {
    const clinic = standingAt('2 3 × 5 × 8 s, push 3')
    clinic.readAll()
    clinic.maren.write('clients').press('Orla Tiernan').skip().press('Set a dose by hand')
    expect(clinic.maren.read()).toMatchInlineSnapshot(`
      "Orla Tiernan. Now: extension: rung 2, two-hand press: 3 sets of 5 holds of 8 seconds, push 3 out of 10
      Which dose do you set?
      [1. rung 2, two-hand press: 3 sets of 5 holds of 6 seconds, push 3 out of 10] [2. rung 2, two-hand press: 3 sets of 5 holds of 5 seconds, push 3 out of 10] [3. rung 2, two-hand press: 3 sets of 5 holds of 4 seconds, push 3 out of 10] [4. rung 2, two-hand press: 3 sets of 5 holds of 3 seconds, push 3 out of 10] [5. rung 2, two-hand press: 3 sets of 5 holds of 2 seconds, push 3 out of 10] [6. rung 1, side-lying press: 3 sets of 5 holds of 3 seconds]"
    `)
    clinic.maren.press(offered(clinic, 'holds of 4 seconds')).write('flare-up, down for a week').skip()
    expect(clinic.maren.messages.at(-1)?.text).toMatchInlineSnapshot(`
      "Orla Tiernan
      Now: extension: rung 2, two-hand press: 3 sets of 5 holds of 8 seconds, push 3 out of 10
      New: rung 2, two-hand press: 3 sets of 5 holds of 4 seconds, push 3 out of 10
      Reason: flare-up, down for a week"
    `)
    clinic.maren.press('Set it')
    expect(clinic.maren.read()).toMatchInlineSnapshot(`"Orla Tiernan: set. extension: rung 2, two-hand press: 3 sets of 5 holds of 8 seconds, push 3 out of 10 → rung 2, two-hand press: 3 sets of 5 holds of 4 seconds, push 3 out of 10. It counts from the next session; a bad morning or time off may still lower it."`)
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Your therapist has set your next step.
      Next time: two-hand press: 3 sets of 5 holds of 4 seconds, push 3 out of 10."
    `)
    expect(clinic.entries('placed').map(({ by, data }) => [by, data.reason])).toEqual([['Maren Holt', 'flare-up, down for a week']])
  })

  it('stands at the next session, whatever the session before it called for', () => {
    const clinic = trainedOnMonday()
    place(clinic, 'holds of 3 seconds, push 3')
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    clinic.client.write('1')
    clinic.rig.moveTo('2026-01-07T18:00:00Z')
    expect(firstSet(clinic)).toContain('holds of 3 seconds, push 3')
    expect(clinic.chart().lastDecisions.map(({ decision }) => [decision.kind, decision.reasons.map(({ rule }) => rule)])).toEqual([['maintain', ['placed-by-therapist']]])
  })

  it('is lowered all the same by a bad morning told after it', () => {
    const clinic = trainedOnMonday()
    place(clinic, 'holds of 4 seconds, push 3')
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    clinic.client.write('5')
    clinic.rig.moveTo('2026-01-07T18:00:00Z')
    expect(firstSet(clinic)).toContain('holds of 3 seconds, push 3')
  })

  it('is not lowered again by a morning that the therapist knew of', () => {
    const clinic = trainedOnMonday()
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    clinic.client.write('5')
    place(clinic, 'holds of 3 seconds, push 3')
    clinic.rig.moveTo('2026-01-07T18:00:00Z')
    expect(firstSet(clinic)).toContain('holds of 3 seconds, push 3')
  })

  it('releases a ladder that rested at its lowest dose', () => {
    const clinic = standingAt('2 3 × 5 × 5 s, push 3')
    const { extension } = clinic.chart().states
    clinic.rig.store({ ...clinic.chart(), states: { extension: { ...extension!, isHeld: true } } })
    place(clinic, 'holds of 2 seconds, push 3')
    expect(clinic.chart().states.extension?.isHeld).toBe(false)
  })

  it('is not offered while locked or while a session is open', () => {
    const locked = new JoinedClinic()
    locked.client.write('my face went numb')
    locked.maren.write('clients').press('Orla Tiernan').skip().press('Set a dose by hand')
    expect(locked.maren.read()).toMatch(/^Orla Tiernan: training is locked\. Clear the lock first/)
    const open = new JoinedClinic()
    open.rig.moveTo('2026-01-05T18:00:00Z')
    open.begin().maren.write('clients').press('Orla Tiernan').skip().press('Set a dose by hand')
    expect(open.maren.read()).toBe('Orla Tiernan: a session is open. Set the dose once it is over.')
  })

  it('is not set where something has changed since it was offered', () => {
    const clinic = standingAt('2 3 × 5 × 8 s, push 3')
    choose(clinic, 'holds of 4 seconds')
    clinic.client.write('my face went numb')
    clinic.maren.skip().press('Set it')
    expect(clinic.maren.read()).toContain('training is locked')
    expect(clinic.entries('placed')).toEqual([])
  })
})
