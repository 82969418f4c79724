import { describe, expect, it } from 'vitest'
import { describeOutcomes } from '#src/chart/client/describe-outcomes.ts'
import { Draft } from '#src/chart/draft.ts'
import { flows } from '#flows/registry.ts'
import { brandAs, type EventId } from '#src/domain/identifier.ts'
import { JoinedClinic, type Opening } from '#tests/support/joined-clinic.ts'
import { content, extensionPlan } from '#tests/support/sample-chain.ts'

/** Everything said before the check-in at eight is read, and its first question is open. */
function atCheckIn(on: string, clinic = new JoinedClinic()): JoinedClinic {
  clinic.rig.moveTo(`${on}T07:59:00Z`)
  clinic.readAll()
  clinic.rig.moveTo(`${on}T08:00:00Z`)
  return clinic
}

function firstWeek(opening: Opening = {}): JoinedClinic {
  return atCheckIn('2026-01-12', new JoinedClinic(opening))
}

/** Mondays after Orla joined. */
const weekOf = ['2026-01-05', '2026-01-12', '2026-01-19', '2026-01-26', '2026-02-02', '2026-02-09'] as const

function linesOf(clinic: JoinedClinic): readonly string[] {
  return describeOutcomes(new Draft(clinic.chart(), { id: brandAs<EventId>('x'), kind: 'wake' }, clinic.rig.now, { content, flows }))
}

describe('the first weekly check-in', () => {
  it('asks for pain, then for activities of the client’s own choosing, and keeps them', () => {
    const clinic = firstWeek()
    clinic.client.write('2', '1', '4', 'look over my shoulder', '3', 'sleep on my side', '6', 'no')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "A look back at your week. How bad is the pain in your neck, head or arm right now? 0 is none, 10 is the worst you can think of.
      ---
      In the last seven days, how was the pain at its best?
      ---
      And how was it at its worst in the last seven days?
      ---
      What does your neck make hard for you? Name one thing that you want to do as well as before. Use your own words. You can name up to three, one at a time.
      ---
      “look over my shoulder”: how well can you do this now? 0 is not at all, 10 is as well as before.
      ---
      Is there one more thing that your neck makes hard?
      ---
      “sleep on my side”: how well can you do this now? 0 is not at all, 10 is as well as before.
      ---
      Is there one more thing that your neck makes hard?
      ---
      Thank you. I have noted it."
    `)
    expect(clinic.asks).toBeNull()
    const at = Date.parse('2026-01-12T08:00:00Z')
    expect(clinic.chart().outcomes).toEqual({
      weeks: [{ at, now: 2, best: 1, worst: 4 }],
      activities: [
        { name: 'look over my shoulder', namedAt: at, first: { at, score: 3 } },
        { name: 'sleep on my side', namedAt: at, first: { at, score: 6 } },
      ],
      rounds: [{ at, scores: [3, 6] }],
      activitiesAskedAt: at,
      changes: [],
      changeAskedAt: null,
      disability: [],
    })
  })

  it('takes no more than three activities', () => {
    const clinic = firstWeek()
    clinic.client.write('2', '1', '4', 'drive', '3', 'sleep', '6', 'read', '5')
    expect(clinic.asks).toBeNull()
  })

  it('records every answer as it is given', () => {
    const clinic = firstWeek()
    clinic.client.write('2', '1', '4', 'drive').press('Skip this one').write('no')
    const occasion = Date.parse('2026-01-12T08:00:00Z')
    expect(clinic.entries('weekly').map(({ by, data }) => ({ by, ...data }))).toEqual([
      { by: 'client', occasion, now: 2, best: null, worst: null, average: 2 },
      { by: 'client', occasion, now: 2, best: 1, worst: null, average: 1.5 },
      { by: 'client', occasion, now: 2, best: 1, worst: 4, average: 2.3 },
    ])
    expect(clinic.entries('activities').at(-1)?.data).toEqual({ occasion, activities: [{ name: 'drive', score: null }] })
  })
})

describe('the weekly check-in', () => {
  it.each(['stop', 'not today'])('that is left by "%s" keeps what was answered and asks nothing more', (leave) => {
    const clinic = firstWeek()
    clinic.client.write('2', '1', leave)
    expect(clinic.asks).toBeNull()
    expect(clinic.chart().outcomes.weeks).toEqual([{ at: Date.parse('2026-01-12T08:00:00Z'), now: 2, best: 1, worst: null }])
  })

  it('that a session takes the place of keeps what was answered', () => {
    const clinic = firstWeek()
    clinic.client.write('2', '1', '4', 'drive', 'ready')
    expect(clinic.chart().outcomes.activities).toMatchObject([{ name: 'drive', first: null }])
    expect(clinic.asks).toBe('session.screen')
  })

  it('takes "I do not remember" for the best and the worst, and no other answer than a pain for now', () => {
    const clinic = firstWeek()
    clinic.client.write('skip')
    expect(clinic.asks).toBe('weekly.now')
    clinic.client.write('2').press('I do not remember', 'I do not remember')
    expect(clinic.asks).toBe('weekly.activity')
  })

  it('takes a slip back', () => {
    const clinic = firstWeek()
    clinic.client.write('2', 'sorry, I meant 3')
    expect(clinic.asks).toBe('weekly.best')
    clinic.client.write('1', 'sorry, I meant 2', '4', 'drive', '3', 'sleep', '6', 'read')
    clinic.client.write('sorry, I meant 7')
    expect(clinic.asks).toBe('weekly.score')
    clinic.client.write('5')
    expect(clinic.chart().outcomes).toMatchObject({ weeks: [{ now: 3, best: 2, worst: 4 }], rounds: [{ scores: [3, 7, 5] }] })
    expect(clinic.chart().outcomes.activities.map(({ first }) => first?.score)).toEqual([3, 7, 5])
  })

  it('asks one symptom question after red pain, and goes on', () => {
    const clinic = firstWeek()
    clinic.client.write('2', '1', '6')
    expect(clinic.asks).toBe('symptom.ask')
    clinic.client.press('None of these')
    expect(clinic.asks).toBe('weekly.activity')
  })

  it('asks no symptom question after amber pain', () => {
    const clinic = firstWeek()
    clinic.client.write('5', '1', '5')
    expect(clinic.asks).toBe('weekly.activity')
  })

  it('is over when its symptom question is left', () => {
    const clinic = firstWeek()
    clinic.client.write('2', '1', '6', 'stop')
    expect(clinic.asks).toBeNull()
  })

  it.each([
    [7, false],
    [8, true],
  ])('with a pain of %d right now and a usual pain of 1 locks: %s', (pain, isLocked) => {
    const clinic = firstWeek()
    clinic.client.write(String(pain))
    expect(clinic.chart().lock?.level === 'urgent').toBe(isLocked)
  })

  it('with a pain of 8 that is no more than two above usual does not lock', () => {
    const clinic = firstWeek({ plan: { ...extensionPlan, usualPain: 6 } })
    clinic.client.write('8')
    expect(clinic.chart().lock).toBeNull()
  })

  it('hears a sign that is named as an activity', () => {
    const clinic = firstWeek()
    clinic.client.write('2', '1', '4', 'half my face is drooping')
    expect(clinic.chart().lock?.level).toBe('emergency')
    expect(clinic.chart().outcomes.activities).toEqual([])
  })
})

describe('the weeks after', () => {
  it('ask for the same activities every second week, and for the change from the fourth on', () => {
    const clinic = firstWeek()
    clinic.client.write('2', '1', '4', 'drive', '3', 'no')
    atCheckIn(weekOf[2], clinic).client.write('1', '0', '3')
    expect(clinic.asks).toBeNull()
    atCheckIn(weekOf[3], clinic).client.write('1', '0', '3')
    expect(clinic.client.read()).toContain('“drive”: how well can you do this now?')
    clinic.client.write('5')
    expect(clinic.asks).toBeNull()
    atCheckIn(weekOf[4], clinic).client.write('1', '0', '3')
    expect(clinic.asks).toBe('weekly.change')
    clinic.client.press('Better').write('3')
    expect(clinic.asks).toBeNull()
    expect(clinic.chart().outcomes.changes).toMatchObject([{ turn: 'better', amount: 3 }])
    atCheckIn(weekOf[5], clinic).client.write('1', '0', '3')
    expect(clinic.asks).toBe('weekly.score')
  })

  it('ask for activities again where none was named', () => {
    const clinic = firstWeek()
    clinic.client.write('2', '1', '4', 'no')
    atCheckIn(weekOf[3], clinic).client.write('2', '1', '4')
    expect(clinic.asks).toBe('weekly.activity')
  })

  it('add no new activity to those that were named', () => {
    const clinic = firstWeek()
    clinic.client.write('2', '1', '4', 'drive', '3', 'stop')
    atCheckIn(weekOf[3], clinic).client.write('2', '1', '4', '6')
    expect(clinic.asks).toBeNull()
  })

  it.each([
    ['worse', 'How much worse is it?'],
    ['better', 'How much better is it?'],
  ])('ask how much %s', (turn, question) => {
    const clinic = atCheckIn(weekOf[4])
    clinic.client.write('1', '0', '3', 'no', turn)
    expect(clinic.client.read()).toContain(question)
  })

  it('ask nothing more where nothing has changed', () => {
    const clinic = atCheckIn(weekOf[4])
    clinic.client.write('1', '0', '3', 'no').press('About the same')
    expect(clinic.asks).toBeNull()
    expect(clinic.chart().outcomes.changes).toMatchObject([{ turn: 'same', amount: null }])
  })
})

describe('what the therapist reads of it', () => {
  it('is nothing before anything was measured', () => {
    expect(linesOf(new JoinedClinic())).toEqual([])
  })

  it('is each measure from first to last, with its error and whom the sources measured', () => {
    const clinic = firstWeek()
    clinic.client.write('5', '4', '6').press('None of these').write('drive', '3', 'sleep', '6', 'no')
    atCheckIn(weekOf[3], clinic).client.write('2', '1', '3', '7', '7')
    atCheckIn(weekOf[4], clinic).client.write('2', '1', '3', 'better', '4')
    expect(linesOf(clinic).join('\n')).toMatchInlineSnapshot(`
      "Measures, first and last:
      Pain, mean of now, best and worst of the week (0–10): 5 (2026-01-12) → 2 (2026-02-02). Change -3 (-60 per cent), better. No verdict: the sources disagree on the error. (Reached: mechanical neck pain 2.1, low back pain 2.8 by reliable change; not reached: nerve-root pain 4.1, neck pain 4.)
      Own activities, mean of the 2 scored both times (0–10): 4.5 (2026-01-12) → 7 (2026-01-26). Change +2.5, better. No verdict: the sources disagree on the error. (Reached: the form’s own note 2, nerve-root pain 2.1; not reached: nerve-root pain 3.3.)
      “drive” (0–10): 3 (2026-01-12) → 7 (2026-01-26). Change +4, better. Larger than the error in every source. (By source: the form’s own note 3.)
      “sleep” (0–10): 6 (2026-01-12) → 7 (2026-01-26). Change +1, better. Within the error in every source. (By source: the form’s own note 3.)
      Client’s own judgement (2026-02-02), compared with the beginning: better by 4 of 7 (moderate)."
    `)
  })

  it('leaves out a week that was left early', () => {
    const clinic = firstWeek()
    clinic.client.write('5', 'stop')
    expect(linesOf(clinic)).toEqual([])
  })
})
