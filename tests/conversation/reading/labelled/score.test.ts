import { describe, expect, it } from 'vitest'
import { readMessage, type Reading } from '#src/conversation/reading/read-message.ts'
import type { SignId } from '#src/domain/identifier.ts'
import { english } from '../reading-of.ts'
import { levels, type LabelledMessage } from './messages.ts'
import { score, type Score } from './score.ts'

interface Told {
  readonly sure?: readonly string[]
  readonly unsure?: readonly string[]
  readonly value?: Reading['value']
  readonly stop?: boolean
}

const blank = readMessage('', 'nothing', english)

/** What one message, read as told, does to the figures. */
function scoreOf(label: Partial<LabelledMessage>, read: Told = {}): Score {
  const flags = (ids: readonly string[] = []) => ids.map((id) => ({ level: levels.get(id) ?? 'routine', sign: id as SignId }))
  const message: LabelledMessage = { text: 'x', awaiting: 'nothing', signs: [], asks: [], stop: false, ...label }
  const { sure, unsure, value = null, stop = false } = read
  return score([message], () => ({ ...blank, redFlags: flags(sure), unsureFlags: flags(unsure), value, stop }))
}

describe('the score of signs', () => {
  it.each([
    ['its own name', 'drop-attack', ['drop-attack'], 1],
    ['either of two names', 'arm-numbness|clumsy-hands', ['clumsy-hands'], 1],
    ['a graver name of its kind', 'other-trauma', ['dangerous-trauma'], 1],
    ['a lesser name of its kind', 'dangerous-trauma', ['other-trauma'], 0],
    ['another sign of its level', 'face-droop', ['drop-attack'], 0],
    ['nothing', 'drop-attack', [], 0],
  ])('counts a sign read under %s', (_, sign, sure, right) => {
    const { recall, missedSigns } = scoreOf({ signs: [sign] }, { sure })
    expect(recall.emergency.right + recall.urgent.right).toBe(right)
    expect(missedSigns).toHaveLength(1 - right)
  })

  it('does not take a question for an alarm', () => {
    const { recall, alarmed, alarmedOrAsked } = scoreOf({ signs: ['drop-attack'] }, { unsure: ['drop-attack'] })
    expect([recall.emergency, alarmed, alarmedOrAsked].map(({ right }) => right)).toEqual([0, 0, 1])
  })

  it('calls an alarm false without a label, early where a question would do, and right otherwise', () => {
    const figures = [{}, { asks: ['fever'] }, { signs: ['fever'] }].map((label) => {
      const { precision, falseAlarms, early } = scoreOf(label, { sure: ['fever'] })
      return [precision, falseAlarms.length, early.length]
    })
    expect(figures).toEqual([
      [{ right: 0, of: 1 }, 1, 0],
      [{ right: 1, of: 1 }, 0, 1],
      [{ right: 1, of: 1 }, 0, 0],
    ])
  })

  it('knows a doubt that is asked about, and a plain message that is disturbed', () => {
    expect(scoreOf({ asks: ['fever'] }, { unsure: ['fever'] }).asked).toEqual({ right: 1, of: 1 })
    expect(scoreOf({ asks: ['fever'] }).asked).toEqual({ right: 0, of: 1 })
    expect(scoreOf({}, { unsure: ['fever'] }).undisturbed).toEqual({ right: 0, of: 1 })
  })

  it('refuses a label that the triage content does not know', () => {
    expect(() => scoreOf({ signs: ['hiccups'] })).toThrow('hiccups')
  })
})

describe('the score of answers', () => {
  it.each([
    ['the label', { awaiting: 'pain', value: 3 }, 3, [1, 1], [1, 1]],
    ['nothing instead: asked again, not wrong', { awaiting: 'pain', value: 3 }, null, [0, 1], [1, 1]],
    ['another value', { awaiting: 'pain', value: 3 }, 2, [0, 1], [0, 1]],
    ['a value where none is meant', { awaiting: 'pain' }, 2, [0, 1], [0, 1]],
    ['a value beside a sign, which is no answer', { awaiting: 'pain', signs: ['fever'] }, 2, [0, 0], [0, 1]],
    ['nothing, as nothing was asked', { awaiting: 'nothing' }, null, [0, 0], [0, 0]],
  ] as const)('reads %s', (_, label, value, values, notWrong) => {
    const result = scoreOf({ ...label, signs: 'signs' in label ? [...label.signs] : [] }, { value })
    expect([result.values.right, result.values.of]).toEqual(values)
    expect([result.notWrong.right, result.notWrong.of]).toEqual(notWrong)
  })

  it('compares the wish to stop both ways', () => {
    expect(scoreOf({ stop: true }, { stop: true }).stops).toEqual({ right: 1, of: 1 })
    expect(scoreOf({ stop: true }, { stop: false }).stops).toEqual({ right: 0, of: 1 })
    expect(scoreOf({ stop: false }, { stop: true }).stops).toEqual({ right: 0, of: 1 })
  })
})
