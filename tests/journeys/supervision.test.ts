// What the rules wait for: a rung to be shown and approved, a review, a session after time off.
import { describe, expect, it } from 'vitest'
import type { Chart } from '#src/chart/chart.ts'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { newLadderState, type LadderState } from '#src/rules/ladder-state.ts'
import { JoinedClinic } from '#tests/support/joined-clinic.ts'
import { chainFor, extensionPlan } from '#tests/support/sample-chain.ts'
import { weekdays } from '#src/domain/plan.ts'

const chain = chainFor(extensionPlan)

/** The client stands at a rung's last dose, met once or met again, as if they had trained up to it. */
function atTopOf(rung: number, standing: 'once' | 'again', patch: Partial<LadderState> = {}): JoinedClinic {
  const clinic = new JoinedClinic()
  const place = chain.places.findLast((one) => one.rung === rung && one.standing === standing)
  if (!place) throw new Error(`rung ${rung} has no such place`)
  const state: LadderState = { ...newLadderState(place), ...patch }
  clinic.rig.store({ ...clinic.chart(), states: { extension: state } } satisfies Chart)
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  return clinic
}

/** Trains at 18:00 of these days of January, with good mornings; gives the dose line of each first set. */
function trainOn(clinic: JoinedClinic, days: readonly number[]): readonly string[] {
  return days.map((day) => {
    clinic.rig.moveTo(`2026-01-${String(day).padStart(2, '0')}T18:00:00Z`)
    clinic.begin()
    const dose = clinic.client.messages.findLast(({ text }) => text.includes('Set 1 of 3'))?.text ?? ''
    while (clinic.asks === 'session.set') clinic.doSet()
    clinic.rig.moveTo(`2026-01-${String(day + 1).padStart(2, '0')}T08:00:00Z`)
    while (clinic.asks !== null) clinic.client.write('1')
    return /Set 1 of 3 – (.*)/.exec(dose)?.[1] ?? ''
  })
}

const top = 'two-hand press: 5 holds of 10 seconds, push 5 out of 10'

describe('the next rung', () => {
  it('is asked for one clean session ahead, with all that has to be done first', () => {
    const clinic = atTopOf(2, 'once')
    clinic.maren.skip()
    trainOn(clinic, [5])
    expect(clinic.maren.read()).toMatchInlineSnapshot(`
      "Orla Tiernan is one clean session away from rung 3: Seated head pull with a band. Press only when you have shown it in person and checked the set-up.
      [Shown, checked and agreed] [Not yet]
      ---
      Open with one client:
      • Orla Tiernan: one question about a step waits
      [Orla Tiernan]"
    `)
  })

  it('is entered after the next clean session once it is permitted, at its entry dose', () => {
    const clinic = atTopOf(2, 'once')
    const [first] = trainOn(clinic, [5])
    clinic.maren.skip().press('Shown, checked and agreed')
    expect(clinic.maren.read()).toBe('Orla Tiernan: rung 3 may be entered after the next clean session.')
    expect([first, ...trainOn(clinic, [7])]).toEqual([top, top])
    expect(trainOn(clinic, [9])[0]).toMatch(/^band pull: 8 repetitions/)
  })

  it('is not entered while nobody answers or when it is declined, and is asked for once', () => {
    for (const answer of ['none', 'decline']) {
      const clinic = atTopOf(2, 'once')
      clinic.maren.skip()
      trainOn(clinic, [5])
      if (answer === 'decline') clinic.maren.press('Not yet')
      expect(trainOn(clinic, [7, 9])).toEqual([top, top])
      expect(clinic.maren.read().match(/is one clean session away/g)).toHaveLength(1)
    }
  })

  it('answered twice counts once and says so', () => {
    const clinic = atTopOf(2, 'once')
    trainOn(clinic, [5])
    const { data } = clinic.maren.button('Shown, checked and agreed')
    clinic.maren.pressData(data).skip().pressData(data)
    expect(clinic.maren.read()).toBe('Orla Tiernan: that request is closed. Nothing was changed.')
  })

  // The band's rung is left only after 14 days on it; the approval of the harness lapses after 14.
  const onBandSince = { rungs: { 3: { firstOn: brandAs<LocalDate>('2026-01-05'), sessions: 6 } } }

  // Permitted on 7 January, 14 days before; on the 6th, 15 days before.
  it.each([
    ['14', '2026-01-07T12:00:00Z', /harness/],
    ['15', '2026-01-06T12:00:00Z', /band pull/],
  ])('that was approved %s days ago, and could not be entered before: %s', (_days, permittedAt, dose) => {
    const clinic = atTopOf(3, 'again', onBandSince)
    trainOn(clinic, [5])
    clinic.rig.moveTo(permittedAt)
    clinic.maren.press('Shown, checked and agreed')
    trainOn(clinic, [7, 9, 12, 14, 16, 19])
    expect(trainOn(clinic, [21])[0]).toMatch(dose)
  })

  it('is asked for anew when its approval has lapsed', () => {
    const clinic = atTopOf(3, 'again', onBandSince)
    trainOn(clinic, [5])
    clinic.maren.press('Shown, checked and agreed').skip()
    trainOn(clinic, [7, 9, 12, 14, 16, 19, 21])
    expect(clinic.maren.read()).toContain('is one clean session away from rung 4')
  })

  it('loses its approval at a session that is not clean', () => {
    const clinic = atTopOf(3, 'again', onBandSince)
    trainOn(clinic, [5])
    clinic.maren.press('Shown, checked and agreed')
    clinic.rig.moveTo('2026-01-07T18:00:00Z')
    clinic.begin().doSet({ pain: 4 }).doSet().doSet()
    trainOn(clinic, [9])
    expect(clinic.chart().approvals).toEqual([])
  })
})

describe('the review', () => {
  const everyDay = { ...extensionPlan, schedule: { ...extensionPlan.schedule, days: weekdays } }

  it('is told with the protocol’s own number of days', () => {
    const clinic = new JoinedClinic({ plan: { ...extensionPlan, thresholds: { supervision: { noProgressAfterDays: 21 } } } })
    clinic.rig.moveTo('2026-01-26T12:00:00Z')
    clinic.maren.skip().press('Reviewed, go on')
    expect(clinic.maren.read()).toBe('Orla Tiernan: review recorded. The next one is due in 21 days.')
  })

  it('is asked for after 28 days, and closed when it is done', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-02-02T11:59:00Z')
    clinic.maren.skip()
    clinic.rig.moveTo('2026-02-02T12:00:00Z')
    expect(clinic.maren.read()).toMatchInlineSnapshot(`
      "Orla Tiernan: no review for 28 days. No progress until you have reviewed; no sessions from day 42.
      Orla Tiernan: a retest of maximal force is due (extension; last measured on 2026-01-05). Not with pain, and in your presence only.
      [Reviewed, go on] [Show the client] [Enter a measurement]"
    `)
    clinic.maren.press('Reviewed, go on')
    expect(clinic.maren.read()).toBe('Orla Tiernan: review recorded. The next one is due in 28 days.')
    expect(clinic.chart().alerts.filter(({ title }) => title.includes('no review'))).toEqual([])
    clinic.rig.moveTo('2026-03-02T12:00:00Z')
    expect(clinic.maren.read()).toContain('no review for 28 days')
  })

  it.each([
    ['the 27th day', '2026-02-01', 'one small step up.'],
    ['the 28th day', '2026-02-02', 'the same again.'],
  ])('left open by %s makes of a clean session: %s', (_title, date, decision) => {
    const clinic = new JoinedClinic({ plan: everyDay })
    clinic.rig.moveTo(`${date}T18:00:00Z`)
    clinic.train()
    expect(clinic.client.messages.findLast(({ text }) => text.includes('Next time'))?.text).toContain(`Next time: ${decision}`)
  })

  it.each([
    ['the 41st day', '2026-02-15', 'session.warm-up'],
    ['the 42nd day', '2026-02-16', null],
  ])('left open by %s leads to %s', (_title, date, asked) => {
    const clinic = new JoinedClinic({ plan: everyDay })
    clinic.rig.moveTo(`${date}T18:00:00Z`)
    clinic.client.press('Ready', 'None of these').write('1')
    expect(clinic.asks).toBe(asked)
  })

  it('of 42 days says that there is nothing to do today, and why', () => {
    const clinic = new JoinedClinic({ plan: everyDay })
    clinic.rig.moveTo('2026-02-16T18:00:00Z')
    clinic.client.press('Ready', 'None of these').skip().write('1')
    expect(clinic.client.read()).toBe('There is nothing to do today. Your neck needs the rest, or your therapist has to look at your plan first.')
  })
})

describe('time off', () => {
  /** Trained once on Monday, 5 January, one step up earned; then again at 18:00 on that date. */
  function backOn(date: string): JoinedClinic {
    const clinic = new JoinedClinic()
    trainOn(clinic, [5])
    clinic.rig.moveTo(`${date}T18:00:00Z`)
    // A review was due meanwhile.
    clinic.rig.store({ ...clinic.chart(), reviewedAt: clinic.rig.now })
    clinic.maren.skip()
    if (clinic.asks !== 'session.ready') clinic.client.write('ready')
    else clinic.client.press('Ready')
    clinic.client.press('None of these').write('1').skip().write('1')
    clinic.client.press('Done')
    return clinic
  }

  it.each([
    ['7 days', '2026-01-12', '5 holds of 6 seconds', null],
    ['8 days', '2026-01-13', '5 holds of 5 seconds', 'You have not trained for 8 days, so we repeat the last step first.'],
    ['14 days', '2026-01-19', '5 holds of 5 seconds', 'You have not trained for 14 days, so we repeat the last step first.'],
    ['15 days', '2026-01-20', '5 holds of 4 seconds', 'You have not trained for 15 days, so we start a bit easier.'],
    ['28 days', '2026-02-02', '5 holds of 4 seconds', 'You have not trained for 28 days, so we start a bit easier.'],
    ['29 days', '2026-02-03', '5 holds of 4 seconds', 'You have not trained for 29 days, so we start low again.'],
  ])('of %s starts at what fits, and says why', (_title, date, dose, reason) => {
    const clinic = backOn(date)
    const text = clinic.client.read()
    expect(text).toContain(`Set 1 of 3 – two-hand press: ${dose}`)
    if (reason === null) expect(text).not.toContain('You have not trained')
    else expect(text).toContain(reason)
  })

  it('of more than 28 days is told to the therapist when training starts again', () => {
    expect(backOn('2026-02-03').maren.read()).toContain('29 days off: the lower of the rung')
    expect(backOn('2026-02-02').maren.read()).not.toContain('days off')
  })

  it('of two weeks is told once, from joining on as well', () => {
    const clinic = new JoinedClinic()
    clinic.maren.skip()
    clinic.rig.moveTo('2026-01-19T11:59:00Z')
    expect(clinic.maren.read()).toBe('')
    clinic.rig.moveTo('2026-01-30T12:00:00Z')
    expect(clinic.maren.read().match(/No session for 14 days\./g)).toHaveLength(1)
  })

  it('of more than two weeks brings the whole safety check', () => {
    const labels = ['2026-01-19', '2026-01-21'].map((date) => {
      const clinic = new JoinedClinic()
      trainOn(clinic, [5])
      clinic.rig.moveTo(`${date}T18:00:00Z`)
      clinic.client.press('Ready')
      return clinic.client.messages.at(-1)?.buttons.some(({ label }) => label.startsWith('New illness'))
    })
    expect(labels).toEqual([false, true])
  })
})

describe('a therapist who looks at a client', () => {
  it('sees where they stand, why, what is open and when they train next', () => {
    const clinic = atTopOf(2, 'once')
    trainOn(clinic, [5])
    clinic.maren.skip().write('clients').press('Orla Tiernan')
    expect(clinic.maren.read()).toMatchInlineSnapshot(`
      "1 client. Press a name to look.
      [Orla Tiernan]
      ---
      Orla Tiernan – training

      extension, rung 2: two-hand press: 3 sets of 5 holds of 10 seconds, push 5 out of 10
      Progress. Clean: every set whole and comfortable, control steady, reserve at least 2, morning fine.

      Last sessions: 2026-01-05: 3/3 sets, worst pain 1, control steady

      Last 4 weeks: 1 of 1 sessions (100 %)
      2026-W02: 1 of 1 sessions, 3 sets, 3 min under tension, effort × minutes – (told for 0 of 1)

      Open alerts: 0. Requests waiting: 1.
      Next reminder: Wed 7 Jan, 18:00
      [Why, to the source] [Working loads] [Enter a measurement] [Set a dose by hand] [Enter a disability score]"
    `)
  })
})
