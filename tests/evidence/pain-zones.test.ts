// Source: pain-monitoring model: Thomeé 1997, Phys Ther 77(12):1690-1703; Silbernagel 2007, Am J Sports Med 35(6):897-906.
// Zones 0-2, 2-5, 5-10 [memory:high]; "up to 5 acceptable, above not" [found-2nd] https://bim.physio/the-pain-monitoring-model/ .
// The printed zones share their ends: 2 is safe and 5 acceptable [convention]. Tested in knee-cap and heel-tendon pain, not
// in necks.
import { describe, expect, it } from 'vitest'
import type { SetReport } from '#src/domain/set-report.ts'
import { afterSet } from '#src/rules/after-set.ts'
import { noRuns, decide } from '#src/rules/decide.ts'
import { judgeSession, type Outcome } from '#src/rules/judge-session.ts'
import { judgeMorning } from '#src/rules/morning.ts'
import { painZone } from '#src/rules/pain-zone.ts'
import { novice } from './shipped.ts'
import { sets } from '../rules/reports.ts'

const scale = Array.from({ length: 11 }, (_, pain) => pain)

describe('the zones of the model', () => {
  it('are safe up to 2, acceptable up to 5 and to be avoided above, for a client without usual pain', () => {
    expect(scale.map((pain) => painZone(pain, 0, novice))).toEqual([
      ...Array<string>(3).fill('comfortable'),
      ...Array<string>(3).fill('amber'),
      ...Array<string>(5).fill('red'),
    ])
  })

  // [convention]: pain that a client has anyway is no warning, but never above the model's 5.
  it.each([
    [1, 2],
    [2, 2],
    [3, 3],
    [4, 4],
    [5, 5],
    [8, 5],
  ])('with a usual pain of %i are comfortable up to %i and red above 5', (usual, comfortable) => {
    const zones = scale.map((pain) => painZone(pain, usual, novice))
    expect(zones.lastIndexOf('comfortable')).toBe(comfortable)
    expect(zones.indexOf('red')).toBe(6)
  })
})

describe('the readings of the three rules [convention]', () => {
  const set = (pain: number): SetReport => ({ pain, control: 'steady', reserve: 3, finished: true })
  const usual = 1

  /** What one session of a single set, and the morning after, decide. */
  function decided(during: number, morning: number): string {
    const facts = { reports: [set(during)], othersStopped: 0, usualPain: usual, protocol: novice }
    const outcome: Outcome = {
      painBefore: usual,
      sets: sets(set(during)),
      isStopped: afterSet(facts).isDirectionStopped,
      endedEarly: false,
      hasRedFlag: false,
      isUnmeasuredEntry: false,
    }
    const judgement = judgeSession(outcome, usual, novice)
    const after = judgeMorning(morning, null, usual, novice)
    return decide({ judgement, morning: after, runs: noRuns, gates: [], protocol: novice }).kind
  }

  it.each([
    ['2 during, the morning as usual: may progress', 2, usual, 'progress'],
    ['5 during, the morning as usual: repeat, do not progress', 5, usual, 'maintain'],
    ['5 during, the morning worse: reduce', 5, usual + 2, 'ease'],
    ['6 during, whatever the morning: regress', 6, usual, 'ease'],
  ])('%s', (_, during, morning, kind) => {
    expect(decided(during, morning)).toBe(kind)
  })

  it('the exercise stops at 6 and goes on at 5', () => {
    const stops = [5, 6].map((pain) => afterSet({ reports: [set(pain)], othersStopped: 0, usualPain: usual, protocol: novice }))
    expect(stops.map((after) => after.isDirectionStopped)).toEqual([false, true])
  })
})
