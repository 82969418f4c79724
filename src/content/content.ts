import type { ShippedAssumptions } from '#src/domain/assumptions.ts'
import type { LadderId, Side } from '#src/domain/direction.ts'
import type { Exercise, ExerciseWords, Ladder } from '#src/domain/exercise.ts'
import type { ExerciseId } from '#src/domain/identifier.ts'
import type { Measures } from '#src/domain/measure.ts'
import type { Protocol, ThresholdSources } from '#src/domain/protocol.ts'
import type { SignatureState } from '#src/domain/signature.ts'
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
  /** The words for one side; null for an exercise that has none. */
  exercise(id: ExerciseId, side: Side | null): ExerciseWords
  /** Its short name, for use in a sentence: of one side, or its name where it has two and none is given. */
  exerciseShort(id: ExerciseId, side: Side | null): string
  /** Whether it is done on either side. */
  hasSides(id: ExerciseId): boolean
  /** Its name, which says no side. */
  exerciseName(id: ExerciseId): string
}

export interface Language {
  readonly words: Words
  readonly lexicon: Lexicon
}

/** Everything that is said and prescribed, read and checked. */
export interface Content {
  readonly exercises: ReadonlyMap<ExerciseId, Exercise>
  readonly ladders: ReadonlyMap<LadderId, Ladder>
  readonly protocols: ReadonlyMap<string, Protocol>
  /** By protocol, where each of its thresholds comes from. */
  readonly protocolSources: ReadonlyMap<string, ThresholdSources>
  readonly triage: Triage
  /** Who stands for the triage content, as it is in force here. */
  readonly signature: SignatureState
  readonly measures: Measures
  /** What loads rest on beside the measured maximum; a plan may say otherwise. */
  readonly assumptions: ShippedAssumptions
  /** Restrictions a plan may list, e.g. a shoulder that is limited. */
  readonly restrictions: readonly string[]
  readonly languages: ReadonlyMap<string, Language>
}
