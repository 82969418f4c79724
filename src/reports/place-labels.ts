import { boxOf, contains, overlap, type Anchor, type Box, type PlacedText } from './text-box.ts'

/** A label for a point; the weightier ones are placed first, and one without room is left out. */
export interface Label {
  readonly text: string
  readonly x: number
  readonly y: number
  readonly weight: number
}

const gap = 7

/** Round the point, the places where a climbing line leaves room first. */
const around: readonly { readonly anchor: Anchor; readonly dx: number; readonly dy: (size: number) => number }[] = [
  { anchor: 'end', dx: 2, dy: () => -gap },
  { anchor: 'start', dx: 5, dy: (size) => size + 4 },
  { anchor: 'start', dx: -2, dy: () => -gap },
  { anchor: 'end', dx: -5, dy: (size) => size + 4 },
]

export function placeLabels(labels: readonly Label[], size: number, area: Box, obstacles: readonly Box[]): readonly PlacedText[] {
  const placed: PlacedText[] = []
  const taken: Box[] = [...obstacles]
  for (const { text, x, y } of labels.toSorted((a, b) => b.weight - a.weight)) {
    const choices = around.map(({ anchor, dx, dy }): PlacedText => ({ text, x: x + dx, y: y + dy(size), size, anchor }))
    const found = choices.find((choice) => contains(area, boxOf(choice)) && !taken.some((box) => overlap(box, boxOf(choice))))
    if (found === undefined) continue
    placed.push(found)
    taken.push(boxOf(found))
  }
  return placed
}

/** Lines of text beside an axis, each as near to its height as the others allow; upper ones first. */
export function spread(wanted: readonly number[], height: number, top: number, bottom: number): readonly number[] {
  const order = wanted.map((_, index) => index).toSorted((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0))
  const heights = [...wanted]
  let least = top
  for (const index of order) {
    heights[index] = Math.max(wanted[index] ?? 0, least)
    least = (heights[index] ?? 0) + height
  }
  let most = bottom
  for (const index of order.toReversed()) {
    heights[index] = Math.min(heights[index] ?? 0, most)
    most = (heights[index] ?? 0) - height
  }
  return heights
}
