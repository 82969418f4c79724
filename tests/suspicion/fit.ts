// Learns how much each clue speaks for something being wrong: logistic regression by stochastic gradient descent, with the same
// shrinking for all weights. The same messages give the same weights, on every machine.
import { uniformInt } from 'pure-rand/distribution/uniformInt'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'

/** A message to learn from: its clues, each once, and whether a careful nurse would ask or act. */
export interface Lesson {
  readonly clues: readonly string[]
  readonly isSuspicious: boolean
}

export interface Weights {
  readonly bias: number
  readonly weights: ReadonlyMap<string, number>
}

// Chosen by the score on messages that were left out (see learn.ts).
const epochs = 20
const firstStep = 0.3
const slowing = 0.1
const biasSlower = 0.1
const shrinking = 0.06
const leastPairs = 2
const seed = 20_261_127

export function fit(all: readonly Lesson[]): Weights {
  const lessons = withoutRare(all)
  const weights = new Map<string, number>()
  let bias = 0
  const order = lessons.map((_lesson, index) => index)
  const dice = xoroshiro128plus(seed)
  for (let epoch = 0; epoch < epochs; epoch += 1) {
    shuffle(order, (last) => uniformInt(dice, 0, last))
    const step = firstStep / (1 + epoch * slowing)
    for (const index of order) {
      const { clues, isSuspicious } = lessons[index] as Lesson
      const error = chanceOf(clues, { bias, weights }) - (isSuspicious ? 1 : 0)
      bias -= step * biasSlower * error
      for (const clue of clues) {
        const weight = weights.get(clue) ?? 0
        weights.set(clue, weight - step * (error + shrinking * weight))
      }
    }
  }
  return { bias, weights }
}

/** Two words that stood together once say more of that message than of the language. */
function withoutRare(lessons: readonly Lesson[]): readonly Lesson[] {
  const counts = new Map<string, number>()
  for (const { clues } of lessons) for (const clue of clues) counts.set(clue, (counts.get(clue) ?? 0) + 1)
  const isKept = (clue: string): boolean => !clue.includes(' ') || (counts.get(clue) ?? 0) >= leastPairs
  return lessons.map(({ clues, isSuspicious }) => ({ clues: clues.filter(isKept), isSuspicious }))
}

function shuffle(order: number[], upTo: (last: number) => number): void {
  for (let last = order.length - 1; last > 0; last -= 1) {
    const other = upTo(last)
    const kept = order[last] as number
    order[last] = order[other] as number
    order[other] = kept
  }
}

/** Log odds. */
export function scoreOf(clues: readonly string[], { bias, weights }: Weights): number {
  return clues.reduce((sum, clue) => sum + (weights.get(clue) ?? 0), bias)
}

function chanceOf(clues: readonly string[], weights: Weights): number {
  return 1 / (1 + Math.exp(-scoreOf(clues, weights)))
}
