// What several directions, two sides, a therapist and the calendar make of each other.
import { describe, expect, it } from 'vitest'
import { comparePlaces } from '#src/domain/chain.ts'
import type { Direction, LadderId } from '#src/domain/direction.ts'
import type { Plan } from '#src/domain/plan.ts'
import { newLadderState } from '#src/rules/ladder-state.ts'
import { chainOf } from '#src/chart/client/plan-facts.ts'
import { chartId, cleanSet, colleagues, JoinedClinic, type SetAnswers } from '#tests/support/joined-clinic.ts'
import { allDirectionsPlan, content, extensionPlan, nameOf } from '#tests/support/sample-chain.ts'

const everyDirection: Plan = { ...allDirectionsPlan, client: extensionPlan.client }
const sides = ['lateral-flexion-left', 'lateral-flexion-right'] as const

function only(...directions: readonly Direction[]): Plan {
  return { ...everyDirection, ladders: everyDirection.ladders.filter(({ direction }) => directions.includes(direction)) }
}

type Answers = Partial<Record<Direction, SetAnswers>>

/** From the present question to the end, each set answered as its direction has it; gives the directions in the order asked. */
function answerSets(clinic: JoinedClinic, answers: Answers = {}): readonly Direction[] {
  const asked: Direction[] = []
  while (clinic.asks === 'session.set') {
    const direction = clinic.chart().session?.asked?.direction
    if (!direction) throw new Error('a set is asked that nothing was shown of')
    asked.push(direction)
    clinic.doSet(answers[direction] ?? cleanSet)
    if (clinic.asks?.startsWith('symptom')) clinic.client.press('None of these')
  }
  return asked
}

function trainOn(clinic: JoinedClinic, day: number, answers: Answers = {}, painNow = 1): readonly Direction[] {
  clinic.rig.moveTo(`2026-01-${String(day).padStart(2, '0')}T18:00:00Z`)
  clinic.begin(painNow)
  const asked = answerSets(clinic, answers)
  while (clinic.asks !== null) clinic.client.write('skip')
  return asked
}

function answerMorning(clinic: JoinedClinic, day: number, pain: number): void {
  clinic.rig.moveTo(`2026-01-${String(day).padStart(2, '0')}T08:00:00Z`)
  clinic.client.write(String(pain))
}

/** The decisions of the last session, as the next one makes them final. */
function decided(clinic: JoinedClinic): Readonly<Record<string, string>> {
  return Object.fromEntries(clinic.entries('decision').map(({ data }) => [String(data.direction), String(data.kind)]))
}

function placeOf(clinic: JoinedClinic, ladder: LadderId): string {
  const state = clinic.chart().states[ladder]
  return state ? nameOf(state.place) : 'none yet'
}

function standAt(clinic: JoinedClinic, ladder: LadderId, name: string): void {
  const place = chainOf(everyDirection, ladder, content).places.find((one) => nameOf(one) === name)
  if (!place) throw new Error(`no place ${name}`)
  const chart = clinic.chart()
  clinic.rig.store({ ...chart, states: { ...chart.states, [ladder]: newLadderState(place) } })
}

describe('several directions on one day', () => {
  it('all ease after a bad morning, however well they went', () => {
    const clinic = new JoinedClinic({ plan: only('extension', 'flexion', ...sides) })
    trainOn(clinic, 5)
    answerMorning(clinic, 6, 4)
    trainOn(clinic, 7)
    expect(decided(clinic)).toEqual({ extension: 'ease', flexion: 'ease', 'lateral-flexion-left': 'ease', 'lateral-flexion-right': 'ease' })
    expect(['extension', 'flexion', 'lateral-flexion'].map((ladder) => placeOf(clinic, ladder as LadderId))).toEqual(Array.from({ length: 3 }, () => '2 3 × 5 × 4 s, push 3'))
  })

  it('move each by its own answers: one eases, one stays, one goes on', () => {
    const clinic = new JoinedClinic({ plan: only('extension', 'flexion', 'deep-flexors') })
    trainOn(clinic, 5, { extension: { pain: 1, moved: 'Yes', reserve: 3 }, flexion: { pain: 1, moved: 'A little', reserve: 3 } })
    answerMorning(clinic, 6, 1)
    trainOn(clinic, 7)
    expect(decided(clinic)).toEqual({ extension: 'ease', flexion: 'maintain', 'deep-flexors': 'progress' })
  })

  it('end together when a second one is stopped, and both count as stopped', () => {
    const clinic = new JoinedClinic({ plan: only('extension', 'flexion', 'deep-flexors') })
    const red: SetAnswers = { pain: 6 }
    const asked = trainOn(clinic, 5, { extension: red, flexion: red, 'deep-flexors': red })
    expect(asked).toHaveLength(2)
    answerMorning(clinic, 6, 1)
    trainOn(clinic, 7)
    const kinds = decided(clinic)
    expect(asked.map((direction) => kinds[direction])).toEqual(['ease', 'ease'])
    expect(Object.values(kinds).toSorted()).toEqual(['ease', 'ease', 'maintain'])
  })
})

describe('the two sides of one movement', () => {
  it('are asked in turn at one dose, and the worse side decides for both', () => {
    const clinic = new JoinedClinic({ plan: only(...sides) })
    expect(trainOn(clinic, 5, { 'lateral-flexion-right': { pain: 1, moved: 'Yes', reserve: 3 } }).toSorted()).toEqual([
      ...Array.from({ length: 3 }, () => 'lateral-flexion-left'),
      ...Array.from({ length: 2 }, () => 'lateral-flexion-right'),
    ])
    answerMorning(clinic, 6, 1)
    trainOn(clinic, 7)
    expect(decided(clinic)).toEqual({ 'lateral-flexion-left': 'ease', 'lateral-flexion-right': 'ease' })
  })

  it('stop together when one is red, and that counts as one bad session and one stop', () => {
    const clinic = new JoinedClinic({ plan: only('extension', ...sides) })
    const asked = trainOn(clinic, 5, { 'lateral-flexion-left': { pain: 6 } })
    expect(asked.filter((direction) => direction.startsWith('lateral'))).toHaveLength(1)
    expect(asked.filter((direction) => direction === 'extension')).toHaveLength(3)
    answerMorning(clinic, 6, 1)
    trainOn(clinic, 7)
    expect(decided(clinic)).toEqual({ extension: 'progress', 'lateral-flexion-left': 'ease', 'lateral-flexion-right': 'ease' })
    expect(clinic.chart().states['lateral-flexion']?.runs.red).toBe(1)
  })
})

describe('a rung that waits for the therapist', () => {
  it('holds its own direction, while another goes on', () => {
    const clinic = new JoinedClinic({ plan: only('extension', 'flexion') })
    standAt(clinic, 'extension', '2 3 × 5 × 10 s, push 5, again')
    trainOn(clinic, 5)
    answerMorning(clinic, 6, 1)
    trainOn(clinic, 7)
    expect(decided(clinic)).toEqual({ extension: 'maintain', flexion: 'progress' })
    expect([placeOf(clinic, 'extension'), placeOf(clinic, 'flexion')]).toEqual(['2 3 × 5 × 10 s, push 5, again', '2 3 × 5 × 6 s, push 3'])
  })
})

describe('directions by turns', () => {
  it('each have their days over two weeks, and a day that is not theirs is no absence', () => {
    const clinic = new JoinedClinic({ plan: everyDirection })
    const days = [5, 7, 9, 12, 14, 16]
    const worked = days.map((day) => {
      const asked = trainOn(clinic, day)
      answerMorning(clinic, day + 1, 1)
      return [...new Set(asked)]
    })
    expect(clinic.entries('absence')).toEqual([])
    for (const directions of worked) expect(directions.length).toBeLessThanOrEqual(4)
    const counts = everyDirection.ladders.map(({ direction }) => worked.filter((directions) => directions.includes(direction)).length)
    expect(counts).toEqual(counts.map(() => 3))
  })
})

describe('"not today" with a reason that is a symptom', () => {
  it('is heard as the symptom first, and no session follows', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.skip().write('not today, I have a fever')
    expect(clinic.chart().alerts.map(({ level, title }) => [level, title])).toMatchInlineSnapshot(`
      [
        [
          "routine",
          "Fever: “not today, I have a fever”",
        ],
      ]
    `)
    expect([clinic.asks, clinic.client.read()]).toMatchInlineSnapshot(`
      [
        "session.not-today-why",
        "Thank you for telling me. Your therapist will see it. If you feel worse, do not train and call your doctor.

      No problem. What keeps you from training today?
      [No time] [Away from home] [Sore or in pain] [Not well]",
      ]
    `)
    expect(clinic.chart().session).toBeNull()
  })
})

describe('a lower maximum in the middle of a climb', () => {
  it('brings the next session down, and what the last one earned is decided from there', () => {
    const clinic = new JoinedClinic({ plan: only('extension') })
    const harness = chainOf(only('extension'), 'extension', content).places.find((place) => place.rung === 4 && place.dose.load.kind === 'mass' && place.dose.load.kilograms > 2)
    if (!harness) throw new Error('no loaded harness place')
    standAt(clinic, 'extension', nameOf(harness))
    trainOn(clinic, 5)
    answerMorning(clinic, 6, 1)
    const by = { desk: colleagues.maren.desk, name: 'Maren Holt' }
    clinic.rig.tell(chartId, { kind: 'measured', by, measurements: [{ direction: 'extension', force: 70, unit: 'N', leverCm: null, on: null, trials: [70] }] })
    const lower = chainOf(clinic.chart().plan!, 'extension', content)
    trainOn(clinic, 7)
    expect(lower.places.map(nameOf)).toContain(placeOf(clinic, 'extension'))
    expect(comparePlaces(clinic.chart().states.extension!.place, harness)).toBeLessThan(0)
  })
})
