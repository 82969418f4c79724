// Which boxes and arrows a picture of a flow is made of.
import { boxOfState, isArrow, labelOf, type StateBox } from './flow-boxes.ts'
import type { ShownFlow, ShownState } from './flow-graph.ts'
import type { Arrow } from './flow-layout.ts'

export interface Drawn {
  readonly boxes: readonly { readonly id: string; readonly box: StateBox }[]
  readonly arrows: readonly Arrow[]
}

/**
 * `cut`: the arrows, as `from → to`, that end in a box of their own with the name of the state where it goes on. An end
 * is drawn beside every state that leads to it: arrows to a single one would cross the whole picture.
 */
export function boxesAndArrows({ states }: ShownFlow, cut: ReadonlySet<string>): Drawn {
  const parts = states.filter(({ kind }) => kind !== 'ends').map((state) => partsAround(state, states, cut))
  return { boxes: parts.flatMap(({ boxes }) => boxes), arrows: parts.flatMap(({ arrows }) => arrows) }
}

function partsAround(state: ShownState, states: readonly ShownState[], cut: ReadonlySet<string>): Drawn {
  const shown = state.ways.filter(isArrow)
  // All ways from one state to another are one arrow.
  const targets = [...new Set(shown.map(({ to }) => to))].map((to) => {
    const key = `${state.name} → ${to}`
    const end = states.find(({ name, kind }) => name === to && kind === 'ends')
    const box = end ?? (cut.has(key) ? elsewhere(to) : null)
    return { id: box === null ? to : `${to} after ${state.name}`, box, label: labelOf(shown.filter((way) => way.to === to)) }
  })
  return {
    boxes: [{ id: state.name, box: boxOfState(state) }, ...targets.flatMap(({ id, box }) => (box === null ? [] : [{ id, box: boxOfState(box) }]))],
    arrows: targets.map(({ id, label }) => ({ from: state.name, to: id, label })),
  }
}

function elsewhere(name: string): ShownState {
  return { name: `to ${name}`, kind: 'elsewhere', question: null, ways: [], notes: [] }
}
