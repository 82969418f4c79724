import { describe, expect, it } from 'vitest'
import type { SetReport } from '#src/domain/set-report.ts'
import { afterSet, type AfterSet } from '#src/rules/after-set.ts'
import { novice } from '../support/sample-chain.ts'
import { report } from './reports.ts'

const protocol = novice()
const goOn: AfterSet = { eases: 0, isDirectionStopped: false, endsSession: false, needsLongerRest: false, asksSymptom: false }
const stopped = { isDirectionStopped: true, asksSymptom: true }

function after(reports: readonly SetReport[], othersStopped = 0, usualPain = 0): AfterSet {
  return afterSet({ reports, othersStopped, usualPain, protocol })
}

describe('after one set', () => {
  it.each<readonly [string, Partial<SetReport>, Partial<AfterSet>]>([
    ['comfortable and steady goes on', { pain: 2 }, {}],
    ['amber eases the rest once', { pain: 3 }, { eases: 1 }],
    ['pain of 5 is still amber', { pain: 5 }, { eases: 1 }],
    ['pain of 6 stops the direction and asks the symptom question', { pain: 6 }, stopped],
    ['pain of 7 does not end the session', { pain: 7 }, stopped],
    ['pain of 8 ends the session', { pain: 8 }, { ...stopped, endsSession: true }],
    ['shaky keeps the dose', { control: 'shaky' }, {}],
    ['control lost eases the rest', { control: 'lost' }, { eases: 1 }],
    ['a set not finished eases the rest and lengthens the rest between', { finished: false }, { eases: 1, needsLongerRest: true }],
    ['nothing in reserve lengthens the rest between', { reserve: 0 }, { needsLongerRest: true }],
    ['one in reserve changes nothing', { reserve: 1 }, {}],
    ['reserve and control not asked change nothing', { reserve: null, control: null }, {}],
    ['amber, control lost and not finished ease once each', { pain: 4, control: 'lost', finished: false }, { eases: 3, needsLongerRest: true }],
  ])('%s', (_, changes, expected) => {
    expect(after([report(changes)])).toEqual({ ...goOn, ...expected })
  })

  it('pain up to the usual is comfortable', () => {
    expect([4, 5].map((pain) => after([report({ pain })], 0, 4).eases)).toEqual([0, 1])
  })
})

describe('after several sets', () => {
  it.each<readonly [string, readonly Partial<SetReport>[], number, Partial<AfterSet>]>([
    ['none done changes nothing', [], 0, {}],
    ['amber twice eases once a session', [{ pain: 3 }, { pain: 4 }], 0, { eases: 1 }],
    ['amber stays eased after a comfortable set', [{ pain: 3 }, {}], 0, { eases: 1 }],
    ['control lost twice stops the direction', [{ control: 'lost' }, { control: 'lost' }], 0, { ...stopped, eases: 1 }],
    ['control lost twice counts with a steady set between', [{ control: 'lost' }, {}, { control: 'lost' }], 0, { ...stopped, eases: 1 }],
    ['the symptom question comes with the second loss, not with a set after it', [{ control: 'lost' }, { control: 'lost' }, {}], 0, { eases: 1, isDirectionStopped: true }],
    ['longer rest is for the last set only', [{ reserve: 0 }, {}], 0, {}],
    ['red in an earlier set keeps the direction stopped', [{ pain: 6 }, {}], 0, { isDirectionStopped: true }],
    ['a second direction stopped ends the session', [{ pain: 6 }], 1, { ...stopped, endsSession: true }],
    ['one other direction stopped does not end it', [{}], 1, {}],
    ['two others stopped end it', [{}], 2, { endsSession: true }],
  ])('%s', (_, sets, othersStopped, expected) => {
    expect(after(sets.map(report), othersStopped)).toEqual({ ...goOn, ...expected })
  })
})
