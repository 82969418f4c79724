import { IntlMessageFormat } from 'intl-messageformat'
import { sides, type Side } from '#src/domain/direction.ts'
import type { ExerciseWords } from '#src/domain/exercise.ts'

/** An exercise's words for each side it can be done on; `none` where it has no side. */
export interface SidedWords {
  readonly name: string
  readonly bySide: ReadonlyMap<Side | 'none', ExerciseWords>
}

export type SideFault = 'syntax' | 'side-in-name' | 'side-without-sides'

const otherSide: Record<Side, Side> = { left: 'right', right: 'left' }

/**
 * Fills in `{side}` and `{other}` once, when the content is read. They are the words left and right in English; a language
 * that needs other forms selects them: `{side, select, left {…} other {…}}`.
 */
export function fillSides(words: ExerciseWords, language: string, isTwoSided: boolean): SidedWords | SideFault {
  if (words.name.includes('{')) return 'side-in-name'
  if (!isTwoSided) return hasBrace(words) ? 'side-without-sides' : { name: words.name, bySide: new Map([['none', words]]) }
  try {
    const bySide = new Map(sides.map((side) => [side, mapTexts(words, (text) => fill(text, side, language))]))
    return { name: words.name, bySide }
  } catch {
    return 'syntax'
  }
}

function fill(text: string, side: Side, language: string): string {
  if (!text.includes('{')) return text
  return String(new IntlMessageFormat(text, language, undefined, { ignoreTag: true }).format({ side, other: otherSide[side] }))
}

function hasBrace(words: ExerciseWords): boolean {
  return Object.values(words).flat().some((text: string) => text.includes('{'))
}

function mapTexts(words: ExerciseWords, change: (text: string) => string): ExerciseWords {
  return {
    name: words.name,
    short: change(words.short),
    setUp: words.setUp.map(change),
    movement: words.movement.map(change),
    breathing: change(words.breathing),
    goodControl: change(words.goodControl),
    faults: words.faults.map(change),
    stopWhen: words.stopWhen.map(change),
    cue: change(words.cue),
  }
}
