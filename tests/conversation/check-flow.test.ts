// What `check` finds in a conversation that is made wrongly.
import { describe, expect, it } from 'vitest'
import { ask, decideBy, defineFlow, final, type FlowDefinition } from '#flows/define-flow.ts'
import { checkFlow, wordingKeysOf } from '#src/conversation/check-flow.ts'

function flowWith(states: FlowDefinition['states'], rest: Partial<FlowDefinition> = {}): ReturnType<typeof defineFlow> {
  return defineFlow({ id: 'sample', version: 1, initial: 'first', safeState: 'first', states, ...rest })
}

const first = ask({ kind: 'yes-no' }, 'sample.first', { answer: 'closed' })

describe('a check of a flow', () => {
  it('finds nothing in one whose states are all reached and left', () => {
    expect(checkFlow(flowWith({ first, closed: final }))).toEqual([])
  })

  it('finds a state that nothing leads to', () => {
    const flow = flowWith({ first, lost: ask({ kind: 'yes-no' }, 'sample.lost', { answer: 'closed' }), closed: final })
    expect(checkFlow(flow).map(({ state, message }) => ({ state, message }))).toEqual([{ state: 'lost', message: 'is never reached' }])
  })

  it('takes a state as reached that is named as an entrance, and the safe state', () => {
    const lost = ask({ kind: 'yes-no' }, 'sample.lost', { answer: 'closed' })
    expect(checkFlow(flowWith({ first, lost, closed: final }, { enteredAt: ['lost'] }))).toEqual([])
    expect(checkFlow(flowWith({ first, lost, closed: final }, { safeState: 'lost' }))).toEqual([])
  })

  it('finds a state that only leads back to itself, though everything can be stopped', () => {
    const flow = flowWith({ first: ask({ kind: 'yes-no' }, 'sample.first', { answer: 'first' }), closed: final }, { on: { stop: 'closed' } })
    expect(checkFlow(flow).map(({ state, message }) => ({ state, message }))).toEqual([{ state: 'first', message: 'cannot be left' }])
  })

  it('finds a state that neither asks nor decides', () => {
    const flow = flowWith({ first, empty: { on: { answer: 'closed' } }, closed: final }, { enteredAt: ['empty'] })
    expect(checkFlow(flow).map(({ state, message }) => ({ state, message }))).toEqual([{ state: 'empty', message: 'neither asks nor decides' }])
  })

  it('takes a state that decides for a whole one', () => {
    expect(checkFlow(flowWith({ first: decideBy([{ target: 'closed' }]), closed: final }))).toEqual([])
  })

  it('names the wording of every question and option, typed forms included', () => {
    const options = [{ value: 'on', words: 'sample.on', saidAs: 'sample.say-on' }, { value: 'made', label: 'Made on the way' }]
    const flow = flowWith({ first: ask({ kind: 'choice', options }, 'sample.first', { answer: 'closed' }), closed: final })
    expect(wordingKeysOf(flow)).toEqual(['sample.first.ask', 'sample.first.example', 'sample.first.why', 'sample.on', 'sample.say-on'])
  })
})
