import type { Direction } from '#src/domain/direction.ts'
import type { Exercise, ExerciseWords, Ladder } from '#src/domain/exercise.ts'
import type { ExerciseId } from '#src/domain/identifier.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import type { Triage } from '#src/domain/triage.ts'
import type { Lexicon } from './lexicon.ts'

/** The wording of one language. */
export interface Words {
  readonly language: string
  /**
   * The text of a key, `file.path.to.text`, with its values filled in (ICU message syntax). Throws on an unknown key or a
   * missing value: both are mistakes of ours that `check` finds first.
   */
  say(key: string, values?: Readonly<Record<string, string | number>>): string
  has(key: string): boolean
  exercise(id: ExerciseId): ExerciseWords
}

export interface Language {
  readonly words: Words
  readonly lexicon: Lexicon
}

/** Everything that is said and prescribed, read and checked. */
export interface Content {
  readonly exercises: ReadonlyMap<ExerciseId, Exercise>
  readonly ladders: ReadonlyMap<Direction, Ladder>
  readonly protocols: ReadonlyMap<string, Protocol>
  readonly triage: Triage
  /** Restrictions a plan may list, e.g. a shoulder that is limited. */
  readonly restrictions: readonly string[]
  readonly languages: ReadonlyMap<string, Language>
}
