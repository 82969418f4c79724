// A therapist enters maximal tests: what is asked again, what is refused, and what changes for the client.
import { describe, expect, it } from 'vitest'
import { newLadderState } from '#src/rules/ladder-state.ts'
import { JoinedClinic } from '#tests/support/joined-clinic.ts'
import { allDirectionsPlan, chainFor, extensionPlan, nameOf } from '#tests/support/sample-chain.ts'

const everyDirection = { ...allDirectionsPlan, client: extensionPlan.client }

/** Asked for Orla's trials. */
function measuring(clinic = new JoinedClinic()): JoinedClinic {
  clinic.maren.write('measure').press('Orla Tiernan').skip()
  return clinic
}

/** Measured and saved; gives what the therapist then reads. */
function measured(clinic: JoinedClinic, ...typed: readonly string[]): string {
  measuring(clinic).maren.write(...typed).skip().press('Save')
  return clinic.maren.read()
}

/** The client stands at the last harness dose. */
function atTopOfHarness(): JoinedClinic {
  const clinic = new JoinedClinic()
  const place = chainFor(extensionPlan).places.findLast((one) => one.rung === 4)
  if (!place) throw new Error('no harness in the chain')
  clinic.rig.store({ ...clinic.chart(), states: { extension: newLadderState(place) } })
  return clinic
}

function placeOf(clinic: JoinedClinic): string {
  const state = clinic.chart().states.extension
  return state ? nameOf(state.place) : 'none yet'
}

describe('a maximal test', () => {
  it('is entered in a few words, read back, and answered with what it changes', () => {
    const clinic = new JoinedClinic()
    clinic.maren.skip().write('measure').press('Orla Tiernan').write('112, 118 N at 14 cm').press('Save')
    expect(clinic.maren.read()).toMatchInlineSnapshot(`
      "Whom have you measured? Maximal tests are done in your presence only, never at home.
      [Orla Tiernan]
      ---
      Orla Tiernan, extension: maximal isometric force? Type every trial with its unit, and the lever arm if you know it.
      ---
      Orla Tiernan, measured today:
      extension: 118 N (best of 112, 118), lever arm 14 cm
      Save it?
      → Save
      ---
      Orla Tiernan: measurement saved. It counts from the next session.
      extension: 120 → 118 N, -2 %. That is within the error of measuring (31.3 N).
      Next doses:
      extension: rung 2, two-hand press: 3 sets of 5 holds of 5 seconds, push 3 out of 10, as before"
    `)
    expect(clinic.chart().plan?.measurements.at(-1)).toEqual({ direction: 'extension', force: 118, unit: 'N', leverCm: 14, on: '2026-01-05', trials: [112, 118] })
  })

  it('in kgf or lbf counts in newtons', () => {
    expect(measured(new JoinedClinic(), '16 kgf')).toContain('extension: 120 → 156.9 N, +31 %. That is more than the error of measuring (31.3 N).')
    expect(measured(new JoinedClinic(), '36 lb')).toContain('extension: 120 → 160.1 N, +33 %.')
  })

  it('of both sides flags trials that differ and sides that differ, each above a tenth', () => {
    const clinic = measuring(new JoinedClinic({ plan: everyDirection }))
    clinic.maren.press('side bending, left').write('100, 90 N').press('side bending, right').write('100, 89 N').press('That is all').skip().press('Save')
    const reply = clinic.maren.read()
    expect(reply).not.toContain('side bending, left: the trials differ')
    expect(reply).toContain('side bending, right: the trials differ by 11 %. Consider measuring again after a rest.')
    expect(reply).not.toContain('the sides differ')
    const uneven = measuring(new JoinedClinic({ plan: everyDirection }))
    uneven.maren.press('side bending, left').write('100 N').press('side bending, right').write('89 N').press('That is all').skip().press('Save')
    expect(uneven.maren.read()).toContain('side bending: the sides differ by 11 %. The weaker side bounds both.')
  })

  it('of several directions is read back whole, and the last one can be taken back', () => {
    const clinic = measuring(new JoinedClinic({ plan: everyDirection }))
    clinic.maren.press('extension').write('150 N').press('flexion').write('80 N').press('That is all').write('back').press('That is all')
    expect(clinic.maren.messages.at(-1)?.text).toBe('Orla Tiernan, measured today:\nextension: 150 N\nSave it?')
  })

  it('is not saved when left', () => {
    const clinic = measuring()
    clinic.maren.write('118 N').press('Leave without saving')
    expect([clinic.chart().plan?.measurements, clinic.entries('measured')]).toEqual([extensionPlan.measurements, []])
  })
})

describe('a number that can hardly be right', () => {
  it.each([
    ['nothing', '0 N', 'extension: 0 N is no force. Please type what was measured.'],
    ['less than nothing', '-12 N', 'extension: -12 N is no force. Please type what was measured.'],
    ['ten times the norm', '1908 N', 'extension: 1908 N is ten times what is usual, or more. Please check the number and its unit.'],
    ['kilograms taken for newtons', '18 N', 'extension: 18 N is unusual. Did you mean 18 kgf?'],
    ['newtons taken for pounds', '190 lb', 'extension: 190 lbf is unusual. Did you mean 190 N?'],
  ])('%s is asked again with what seems wrong', (_title, typed, doubt) => {
    const clinic = measuring()
    clinic.maren.write(typed)
    expect(clinic.maren.messages.at(-1)?.text.split('\n\n')[0]).toBe(doubt)
    clinic.maren.write('118 N')
    expect(clinic.maren.messages.at(-1)?.text).toContain('extension: 118 N')
  })

  it('but can be, since very weak necks are treated, is taken when typed once more', () => {
    const clinic = measuring()
    clinic.maren.write('18 N')
    expect(clinic.maren.messages.at(-1)?.text).toContain('If it is right, type it once more the same way.')
    clinic.maren.write('18 N')
    expect(clinic.maren.messages.at(-1)?.text).toContain('measured today:\nextension: 18 N\n')
  })

  it.each(['0 N', '1908 N'])('and cannot be, as %s, is not taken however often it is typed', (typed) => {
    const clinic = measuring()
    clinic.maren.write(typed, typed, typed)
    expect(clinic.maren.messages.at(-1)?.text).toContain('maximal isometric force? Type every trial')
    expect(clinic.maren.messages.at(-1)?.text).not.toContain('once more')
  })
})

describe('a maximal test is refused', () => {
  const pain = 'Orla Tiernan: the last pain told was 3, comfortable is up to 2. No maximal test now. Measure when a session or a morning has been comfortable.'

  it('while the last pain told was above comfortable, and not once a morning was comfortable', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.begin().doSet({ pain: 3 })
    while (clinic.asks === 'session.set') clinic.doSet()
    clinic.maren.skip().write('measure').press('Orla Tiernan')
    expect(clinic.maren.messages.at(-1)?.text).toBe(pain)
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    clinic.client.write('1')
    expect(measuring(clinic).maren.messages.at(-1)?.text).toContain('maximal isometric force?')
  })

  it('where pain has come up between the question and the answer, and nothing is changed', () => {
    const clinic = measuring()
    clinic.maren.write('118 N')
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.begin(3)
    clinic.maren.skip().press('Save')
    expect(clinic.maren.read()).toContain(pain)
    expect(clinic.chart().plan?.measurements).toEqual(extensionPlan.measurements)
  })

  it('while training is locked', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my face went numb')
    clinic.maren.write('measure').skip().press('Orla Tiernan')
    expect(clinic.maren.read()).toBe('Orla Tiernan: training is locked. No maximal test until you have cleared it.')
  })
})

describe('a lower maximum', () => {
  it('brings the dose down at once, and the client is told', () => {
    const clinic = atTopOfHarness()
    clinic.readAll()
    const reply = measured(clinic, '60 N')
    expect(reply).toContain('It counts from the next session.')
    expect(reply).toMatch(/extension: rung 4, .* → rung \d, /)
    expect(clinic.client.read()).toMatch(/^Your therapist has measured your strength\. Your next session changes with it\.\nNext time: .*\nIf you have a question about it, ask your therapist\.$/)
    const lower = chainFor({ ...extensionPlan, measurements: [...extensionPlan.measurements, { direction: 'extension', force: 60, unit: 'N', leverCm: null, on: null }] })
    expect(lower.places.map(nameOf)).toContain(placeOf(clinic))
  })

  it('in the middle of a session waits for its end, and says so', () => {
    const clinic = atTopOfHarness()
    const before = placeOf(clinic)
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.begin()
    const reply = measured(clinic, '60 N')
    expect(reply).toContain('A session is open: it counts from the next one.')
    expect([placeOf(clinic), clinic.chart().plan?.measurements]).toEqual([before, extensionPlan.measurements])
    while (clinic.asks === 'session.set') clinic.doSet()
    expect(placeOf(clinic)).not.toBe(before)
    expect(clinic.chart().plan?.measurements.map(({ force }) => force)).toEqual([120, 60])
  })
})

describe('a higher maximum', () => {
  it('moves nobody by itself: it is reached by the usual steps', () => {
    const clinic = atTopOfHarness()
    const before = placeOf(clinic)
    clinic.readAll()
    expect(measured(clinic, '240 N')).toContain('That is more than the error of measuring')
    expect(placeOf(clinic)).toBe(before)
    expect(clinic.client.read()).toBe('')
  })
})

describe('the retest', () => {
  it('is asked for once, with the review that falls due with it', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-02-03T12:00:00Z')
    const asked = clinic.maren.messages.filter(({ text }) => text.includes('retest of maximal force is due'))
    expect(asked.map(({ text }) => text)).toEqual([
      [
        'Orla Tiernan: no review for 28 days. No progress until you have reviewed; no sessions from day 42.',
        'Orla Tiernan: a retest of maximal force is due (extension; last measured on 2026-01-05). Not with pain, and in your presence only.',
      ].join('\n'),
    ])
    clinic.rig.moveTo('2026-05-01T12:00:00Z')
    expect(clinic.entries('retest-due')).toHaveLength(1)
  })

  it('is asked for by itself where the review is not near, with the way to enter it', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-20T12:00:00Z')
    clinic.rig.submit(clinic.chart().id, { kind: 'act', by: { desk: clinic.chart().therapist!.desk, name: 'Maren Holt' }, act: 'review', about: 'now', seenRevision: 0 })
    clinic.rig.moveTo('2026-02-02T07:59:00Z')
    clinic.maren.skip()
    clinic.rig.moveTo('2026-02-02T08:00:00Z')
    // The daily line comes at the same time.
    expect(clinic.maren.read().split('\n---\n').at(-1)).toBe(
      'Orla Tiernan: a retest of maximal force is due (extension; last measured on 2026-01-05). Not with pain, and in your presence only.\n[Enter a measurement]',
    )
  })

  it('counts from the newest measurement, and is never asked for where none was made', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-20T12:00:00Z')
    measured(clinic, '130 N')
    clinic.rig.moveTo('2026-02-16T12:00:00Z')
    expect(clinic.entries('retest-due')).toEqual([])
    clinic.rig.moveTo('2026-02-17T12:00:00Z')
    expect(clinic.entries('retest-due').map((entry) => entry.data)).toEqual([{ directions: ['extension'], lastOn: '2026-01-20' }])
    const unmeasured = new JoinedClinic({ plan: { ...extensionPlan, measurements: [] } })
    unmeasured.rig.moveTo('2026-04-01T12:00:00Z')
    expect(unmeasured.entries('retest-due')).toEqual([])
  })
})
