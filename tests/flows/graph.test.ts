// The statecharts by themselves, whatever a document says: nothing unreachable, nothing refused, nothing without an end.
import { describe, expect, it } from 'vitest'
import { ask, decideBy, defineFlow, final, type FlowDefinition } from '#flows/define-flow.ts'
import { both, has, is, not, says } from '#flows/guards.ts'
import { flows } from '#flows/registry.ts'
import type { Flow, FlowEvent } from '#src/conversation/flow.ts'
import { metaOf } from '#src/conversation/run-flow.ts'
import { entriesOf, eventsAt, graphOf, standingAt } from './graph.ts'
import { askingStatesOf, eventsOf, factsFor, isEnd, isOfDesk, sayWay, statesOf, waysFor, waysOf } from './ways.ts'

const all = [...flows.values()]

/** Asking states in which an event is refused under some facts. */
function refusing(flow: Flow, type: 'stop' | 'not-today' | 'back' | 'close'): readonly string[] {
  return askingStatesOf(flow).filter((state) => factsFor(waysFor(flow, state, type)).some((facts) => !standingAt(flow, state, facts).can({ type })))
}

/** "Stop" is an answer of its own while an emergency is open, and nobody is on duty before they have said when. */
const cannotBeStopped = ['called', 'settling-in']

/** Where there is nothing to go back to, and where the answer before has been acted upon. */
const hasNothingBefore: Readonly<Record<string, readonly string[]>> = {
  clearing: ['assessed'],
  disability: ['items'],
  duty: ['what'],
  enrolment: ['name'],
  // Only once a direction is chosen; with a single one there is no choice to go back to.
  measuring: ['direction', 'trials'],
  // `back` is the name of the question whether a break is over.
  pause: ['why', 'back'],
  placing: ['ladder', 'dose'],
  'settling-in': ['name'],
  times: ['what'],
  // An activity that was named stays named; its score can be taken back once there is one.
  weekly: ['now', 'activity', 'score', 'change'],
  withdrawal: ['sure'],
  zone: ['zone'],
}

describe.each(all)('the graph of $id', (flow) => {
  const graph = graphOf(flow)

  it('has no state that is not reached from where a conversation can begin', () => {
    expect(statesOf(flow).filter((state) => !graph.reached.has(state))).toEqual([])
  })

  it('has no way that no answer, event or fact can take', () => {
    expect(waysOf(flow).filter((way) => !graph.taken.has(way)).map(sayWay)).toEqual([])
  })

  it('takes every answer that its questions can give, whatever the facts', () => {
    const refused = askingStatesOf(flow).flatMap((state) => {
      const answers = eventsAt(flow, state).filter(({ type }) => type === 'answer')
      expect(answers.length).toBeGreaterThan(0)
      return answers.filter(({ facts, ...event }) => !standingAt(flow, state, facts).can(event)).map((event) => [state, event])
    })
    expect(refused).toEqual([])
  })

  it('decides under all facts where it decides', () => {
    const deciding = statesOf(flow).filter((state) => 'decides' in (metaOf(flow, state) ?? {}))
    const undecided = deciding.filter((state) => factsFor(waysFor(flow, state, 'go')).some((facts) => !standingAt(flow, state, facts).can({ type: 'go' })))
    expect(undecided).toEqual([])
  })

  it('comes to an end from every state', () => {
    expect(statesOf(flow).filter((state) => !graph.stepsToEnd.has(state))).toEqual([])
    expect(statesOf(flow).some((state) => isEnd(flow, state))).toBe(true)
  })

  it('can be closed from outside at every question', () => {
    expect(refusing(flow, 'close')).toEqual([])
  })

  it('can be stopped at every question, save where that would harm', () => {
    expect(refusing(flow, 'stop')).toEqual(cannotBeStopped.includes(flow.id) ? askingStatesOf(flow) : [])
  })

  it('takes "not today" at every question to a client', () => {
    expect(refusing(flow, 'not-today')).toEqual(isOfDesk(flow) || flow.id === 'called' ? askingStatesOf(flow) : [])
  })

  it('goes back from every question of a flow that gathers answers, as far as there is something before', () => {
    const goesBack = statesOf(flow).some((state) => eventsOf(flow, state).includes('back'))
    expect(refusing(flow, 'back').toSorted()).toEqual(goesBack ? (hasNothingBefore[flow.id] ?? []).toSorted() : askingStatesOf(flow).toSorted())
  })
})

describe('the walk through a graph', () => {
  const asks = { kind: 'yes-no' } as const
  const flowOf = (states: FlowDefinition['states'], enteredAt: readonly string[] = []): Flow =>
    defineFlow({ id: 'invented', version: 1, initial: 'first', safeState: 'first', enteredAt, states: { ...states, closed: final } })

  it('finds a state that nothing leads to, and takes one that is entered from elsewhere', () => {
    const states = { first: ask(asks, 'x', { answer: 'closed' }), second: ask(asks, 'x', { answer: 'closed' }) }
    expect([...graphOf(flowOf(states)).reached].toSorted()).toEqual(['closed', 'first'])
    expect([...graphOf(flowOf(states, ['second'])).reached].toSorted()).toEqual(['closed', 'first', 'second'])
  })

  it('finds a way that an earlier one always takes, and one for an answer that cannot be given', () => {
    const answer = [{ guard: says('maybe'), target: 'closed' }, { guard: has('a'), target: 'closed' }, { guard: both(has('a'), says(true)), target: 'closed' }, { target: 'closed' }]
    const flow = flowOf({ first: ask(asks, 'x', { answer }) })
    const { taken } = graphOf(flow)
    expect(waysOf(flow).filter((way) => !taken.has(way)).map(sayWay)).toEqual(['first answer, “maybe” → closed', 'first answer, a and “yes” → closed'])
  })

  it('finds states from which nothing ends', () => {
    const states = { first: ask(asks, 'x', { answer: [{ guard: says(true), target: 'closed' }, { target: 'round' }] }), round: ask(asks, 'x', { answer: 'about' }), about: ask(asks, 'x', { answer: 'round' }) }
    expect([...graphOf(flowOf(states)).stepsToEnd]).toEqual([['first', 1], ['closed', 0]])
  })

  it('tries every combination of the facts that are read', () => {
    const flow = flowOf({ first: decideBy([{ guard: is('mood', 'fine'), target: 'closed' }, { guard: not(has('rain')), target: 'closed' }]) })
    expect(factsFor(waysFor(flow, 'first', 'go'))).toEqual([
      { mood: 'anything else', rain: false },
      { mood: 'anything else', rain: true },
      { mood: 'fine', rain: false },
      { mood: 'fine', rain: true },
    ])
  })
})

describe('the graphs together', () => {
  it('are those of every flow, with every kind of event taken somewhere', () => {
    const kinds: readonly FlowEvent['type'][] = ['answer', 'go', 'stop', 'not-today', 'back', 'close']
    const taken = new Set(all.flatMap((flow) => [...graphOf(flow).taken].map(({ eventType }) => eventType)))
    expect([...taken].toSorted()).toEqual(kinds.toSorted())
    expect(all.flatMap((flow) => entriesOf(flow)).length).toBeGreaterThanOrEqual(all.length)
  })
})
