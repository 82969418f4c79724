import { describe, expect, it } from 'vitest'
import { judgeSession, type Judgement, type Outcome } from '#src/rules/judge-session.ts'
import { novice } from '../support/sample-chain.ts'
import { bothSides, outcome, report, sets } from './reports.ts'

const protocol = novice()

function judge(changes: Partial<Outcome>, usual = 1): Judgement {
  return judgeSession(outcome(changes), usual, protocol)
}

/** Severity and rules, worst first. */
function written(changes: Partial<Outcome>, usual = 1): string {
  const { severity, reasons, isComplete } = judge(changes, usual)
  return [severity, ...reasons.map((reason) => reason.rule), ...(isComplete ? [] : ['(not complete)'])].join(' ')
}

describe('one set of a session', () => {
  it.each([
    ['clean', report({ pain: 2, reserve: 2 })],
    ['amber amber', report({ pain: 3 })],
    ['amber amber', report({ pain: 5 })],
    ['red red', report({ pain: 6 })],
    ['red red', report({ pain: 6, control: null, reserve: null })],
    ['amber shaky', report({ control: 'shaky' })],
    ['ease control-lost', report({ control: 'lost' })],
    ['ease not-finished', report({ finished: false })],
    ['incomplete reserve-low', report({ reserve: 1 })],
    ['amber reserve-low', report({ reserve: 0 })],
    ['incomplete answer-missing (not complete)', report({ control: null })],
    ['incomplete answer-missing (not complete)', report({ reserve: null })],
    ['amber amber answer-missing (not complete)', report({ pain: 5, reserve: null })],
    ['incomplete set-left-out (not complete)', null],
    ['red red control-lost not-finished reserve-low', report({ pain: 8, control: 'lost', finished: false, reserve: 0 })],
  ])('is judged "%s"', (expected, last) => {
    expect(written({ sets: sets(report(), report(), last) })).toBe(expected)
  })

  it('has its numbers told', () => {
    const { reasons } = judge({ sets: sets(report({ pain: 3 }), report({ pain: 7 }), report({ reserve: 1 })) })
    expect(reasons).toEqual([
      { rule: 'red', numbers: { set: 2, side: 'none', pain: 7, limit: 5 } },
      { rule: 'amber', numbers: { set: 1, side: 'none', pain: 3, limit: 2 } },
      { rule: 'reserve-low', numbers: { set: 3, side: 'none', reserve: 1, limit: 2 } },
    ])
  })

  it('is measured against the usual pain', () => {
    expect([4, 5].map((pain) => written({ sets: sets(report({ pain })) }, 4))).toEqual(['clean', 'amber amber'])
  })
})

describe('the course of a session', () => {
  it.each<readonly [string, Partial<Outcome>]>([
    ['clean', {}],
    ['clean', { painBefore: 2 }],
    ['amber pain-before-amber', { painBefore: 3 }],
    ['amber pain-before-amber', { painBefore: 5 }],
    ['red pain-before-red', { painBefore: 6 }],
    ['incomplete answer-missing', { painBefore: null }],
    ['red direction-stopped', { isStopped: true }],
    ['incomplete ended-early', { endedEarly: true }],
    ['flag red-flag', { hasRedFlag: true }],
    ['flag red-flag direction-stopped ended-early', { hasRedFlag: true, isStopped: true, endedEarly: true }],
    ['clean', { isUnmeasuredEntry: true, sets: sets(report({ reserve: 4 }), report({ reserve: 2 })) }],
    ['incomplete entry-reserve-low', { isUnmeasuredEntry: true, sets: sets(report({ reserve: 3 }), report({ reserve: 4 })) }],
    ['incomplete set-left-out (not complete)', { isUnmeasuredEntry: true, sets: sets(null, report()) }],
    ['incomplete set-left-out set-left-out (not complete)', { sets: sets(null, null) }],
  ])('is judged "%s"', (expected, changes) => {
    expect(written(changes)).toBe(expected)
  })

  it.each<readonly [string, Partial<Outcome>]>([
    ['red direction-stopped (not complete)', { isStopped: true }],
    ['flag red-flag (not complete)', { hasRedFlag: true }],
    ['red pain-before-red (not complete)', { painBefore: 6 }],
    ['amber pain-before-amber set-left-out (not complete)', { painBefore: 5 }],
    ['incomplete answer-missing set-left-out (not complete)', { painBefore: null }],
    ['incomplete set-left-out ended-early (not complete)', { endedEarly: true }],
  ])('with a set that was not done is judged "%s"', (expected, changes) => {
    expect(written({ sets: sets(report(), report(), null), ...changes })).toBe(expected)
  })

  it('has its numbers told', () => {
    const asked = [{ painBefore: null }, { painBefore: 3 }, { painBefore: 6 }, { isUnmeasuredEntry: true, sets: sets(report({ reserve: 3 }), report()) }]
    expect(asked.map((changes) => judge(changes).reasons)).toEqual([
      [{ rule: 'answer-missing', numbers: { set: 0, side: 'none' } }],
      [{ rule: 'pain-before-amber', numbers: { pain: 3, limit: 2, red: 5 } }],
      [{ rule: 'pain-before-red', numbers: { pain: 6, limit: 2, red: 5 } }],
      [{ rule: 'entry-reserve-low', numbers: { reserve: 3, limit: 4 } }],
    ])
  })
})

describe('two sides', () => {
  const clean = [report(), report(), report()]

  it('are judged by the worse of them, whichever it is', () => {
    const worse = [report(), report({ control: 'lost' }), report()]
    expect([bothSides(worse, clean), bothSides(clean, worse)].map((both) => written({ sets: both }))).toEqual(['ease control-lost', 'ease control-lost'])
  })

  it('say on which side it was, and number the sets of each', () => {
    const { reasons } = judge({ sets: bothSides([report(), report({ pain: 3 }), report()], [report({ control: 'shaky' }), report(), null]) })
    expect(reasons).toEqual([
      { rule: 'amber', numbers: { set: 2, side: 'left', pain: 3, limit: 2 } },
      { rule: 'shaky', numbers: { set: 1, side: 'right' } },
      { rule: 'set-left-out', numbers: { set: 3, side: 'right' } },
    ])
  })

  it('both have to leave enough in the first set of a band that was not measured for', () => {
    const both = bothSides([report({ reserve: 4 }), report({ reserve: 2 })], [report({ reserve: 3 }), report({ reserve: 2 })])
    expect(written({ isUnmeasuredEntry: true, sets: both })).toBe('incomplete entry-reserve-low')
  })
})
