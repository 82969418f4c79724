// How much of each flow is reached: by its graph alone, and by people's answers to real documents.
import { describe, expect, it } from 'vitest'
import { flows } from '#flows/registry.ts'
import { graphOf } from './graph.ts'
import { asksOf } from './walk.ts'
import { walked, waysOfWalk } from './walked.ts'
import { askingStatesOf, sayWay, statesOf, waysOf } from './ways.ts'

const all = [...flows.values()]
const asked = new Set(walked.map(asksOf))

/** Midnight and "stop" close a session and a week's questions; everything else stays open until it is answered or left. */
const closedByEvents = ['session', 'weekly']
const notClosed = ['everywhere close → closed']
/** The shipped content has two languages, so that the client's is always asked for. */
const ofOneLanguage: Readonly<Record<string, readonly string[]>> = { enrolment: ['gate-language go → review'] }

const share = (part: number, whole: number): string => `${part} of ${whole}`

describe('the coverage of the flows', () => {
  it('is printed', () => {
    const rows = all.map((flow) => {
      const [states, asking, ways] = [statesOf(flow), askingStatesOf(flow), waysOf(flow)]
      const { reached, taken } = graphOf(flow)
      const row = {
        'states, by the graph': share(states.filter((state) => reached.has(state)).length, states.length),
        'ways, by the graph': share(ways.filter((way) => taken.has(way)).length, ways.length),
        'questions, by the walk': share(asking.filter((state) => asked.has(`${flow.id}.${state}`)).length, asking.length),
        'ways, by the walk': share(ways.filter((way) => waysOfWalk.has(way)).length, ways.length),
      }
      return [flow.id, row] as const
    })
    console.table(Object.fromEntries(rows))
    expect(rows.map(([id]) => id)).toEqual([...flows.keys()])
  })

  it.each(all)('by the walk misses no question of $id', (flow) => {
    expect(askingStatesOf(flow).filter((state) => !asked.has(`${flow.id}.${state}`))).toEqual([])
  })

  it.each(all)('by the walk misses no way of $id but those that nothing takes today', (flow) => {
    const missed = waysOf(flow).filter((way) => !waysOfWalk.has(way)).map(sayWay)
    expect(missed).toEqual([...(closedByEvents.includes(flow.id) ? [] : notClosed), ...(ofOneLanguage[flow.id] ?? [])])
  })
})
