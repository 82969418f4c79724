// Sources as in published/pain-monitoring.ts (Thomeé 1997, Silbernagel 2007) and published/traffic-lights.ts (leaflets,
// which disagree). The zones themselves are in pain-zones.test.ts.
import { describe, expect, it } from 'vitest'
import { decisions } from '#src/domain/decision.ts'
import type { SetReport } from '#src/domain/set-report.ts'
import { afterSet } from '#src/rules/after-set.ts'
import { decide, noRuns, type Decided } from '#src/rules/decide.ts'
import { judgeSession } from '#src/rules/judge-session.ts'
import { judgeMorning } from '#src/rules/morning.ts'
import { painZone } from '#src/rules/pain-zone.ts'
import { sets } from '#tests/rules/reports.ts'
import { novice } from '#tests/support/sample-chain.ts'
import { act, actions } from './published/pain-monitoring.ts'
import { leaflets, lightOf, lights, riseOverBaselineUpTo } from './published/traffic-lights.ts'

const protocol = novice()
const scale = Array.from({ length: 11 }, (_, pain) => pain)

/** One session of three sets with the same pain, from somebody without usual pain. */
function decided(during: number, after: number, morning: number): Decided['kind'] {
  const report: SetReport = { pain: during, control: 'steady', reserve: 3, finished: true }
  const { isDirectionStopped } = afterSet({ reports: [report], othersStopped: 0, usualPain: 0, protocol })
  const course = { isStopped: isDirectionStopped, endedEarly: false, hasRedFlag: false, isUnmeasuredEntry: false }
  const judgement = judgeSession({ painBefore: 0, sets: sets(report, report, report), ...course }, 0, protocol)
  return decide({ judgement, morning: judgeMorning(morning, after, 0, protocol), runs: noRuns, gates: [], protocol }).kind
}

/** Our decision as an action of the model: how demanding the next session is. */
const demand: Record<Decided['kind'], number> = { progress: 0, maintain: 1, ease: 2, 'step back': 3, stop: 3 }

describe('the pain-monitoring model', () => {
  it.each([
    [2, 2, false, false, 'may progress'],
    [5, 5, false, false, 'repeat'],
    [5, 5, true, false, 'reduce'],
    [6, 0, false, false, 'stop and regress'],
    [3, 3, false, true, 'reduce'],
  ] as const)('%i during, %i after, worse next morning %s, rising over weeks %s: %s', (during, after, isWorse, isRising, action) => {
    expect(act({ during, after, isWorseNextMorning: isWorse, isRisingOverWeeks: isRising })).toBe(action)
  })

  it('is never out-dared by us: for every pain during, after and next morning our decision demands no more', () => {
    const daring = scale.flatMap((during) => scale.flatMap((after) => [0, 1, 2, 5, 10].flatMap((morning) => {
      // One point above usual still counts as the same [convention]; the model asks for "settled" without a figure.
      const action = act({ during, after, isWorseNextMorning: morning >= 2, isRisingOverWeeks: false })
      const ours = decided(during, after, morning)
      const needed = action === 'stop and regress' ? actions.indexOf('reduce') : actions.indexOf(action)
      return demand[ours] < needed ? [{ during, after, morning, ours, action }] : []
    })))
    expect(daring).toEqual([])
  })

  it('and stops the exercise where we stop it: above 5', () => {
    const stops = scale.filter((pain) => {
      const report: SetReport = { pain, control: 'steady', reserve: 3, finished: true }
      return afterSet({ reports: [report], othersStopped: 0, usualPain: 0, protocol }).isDirectionStopped
    })
    const settled = { after: 0, isWorseNextMorning: false, isRisingOverWeeks: false }
    expect(stops).toEqual(scale.filter((during) => act({ during, ...settled }) === 'stop and regress'))
  })
})

describe('the traffic-light leaflets', () => {
  const zones = ['comfortable', 'amber', 'red'] as const

  it.each(leaflets)('of the kind "$name" are never stricter than we are, for somebody without usual pain', (leaflet) => {
    const laxer = scale.filter((pain) => zones.indexOf(painZone(pain, 0, protocol)) < lights.indexOf(lightOf(pain, leaflet)))
    expect(laxer).toEqual([])
  })

  it('disagree with one another at 4 and from 6 to 7, where we take the stricter side', () => {
    const [strict, lax] = leaflets
    if (strict === undefined || lax === undefined) throw new Error('two leaflets are needed')
    const disputed = scale.filter((pain) => lightOf(pain, strict) !== lightOf(pain, lax))
    expect(disputed).toEqual([4, 5, 6, 7].filter((pain) => pain !== 5))
    expect(disputed.map((pain) => painZone(pain, 0, protocol))).toEqual(['amber', 'red', 'red'])
  })

  // A usual pain of 4 is the one place where we are laxer than the stricter leaflet: its therapist has set it.
  it('are out-dared only where the therapist has recorded a usual pain of 4', () => {
    const [strict] = leaflets
    if (strict === undefined) throw new Error('two leaflets are needed')
    const laxer = [0, 1, 2, 3, 4].map((usual) =>
      scale.filter((pain) => zones.indexOf(painZone(pain, usual, protocol)) < lights.indexOf(lightOf(pain, strict))))
    expect(laxer).toEqual([[], [], [], [], [4]])
  })

  it('allow a rise of three over the baseline; we call no rise above two comfortable', () => {
    const rises = [0, 1, 2, 3, 4].flatMap((usual) =>
      scale.filter((pain) => painZone(pain, usual, protocol) === 'comfortable').map((pain) => pain - usual))
    expect(Math.max(...rises)).toBeLessThan(riseOverBaselineUpTo)
  })
})

describe('our decisions', () => {
  it('stand in one order, from the most to the least demanding', () => {
    expect(decisions.map((kind) => demand[kind])).toEqual(decisions.map((kind) => demand[kind]).toSorted((a, b) => a - b))
  })
})
