import { ErrorCode, type IntlMessageFormat } from 'intl-messageformat'
import type { ExerciseId } from '#src/domain/identifier.ts'
import type { Words } from './content.ts'
import type { SidedWords } from './sided-words.ts'

export type WordingErrorCode = 'unknown-key' | 'missing-value' | 'unfit-value' | 'unknown-exercise' | 'unfit-side'

/** A mistake of ours: a text was asked for that is not there, or cannot be filled in. Names the key, never a value. */
export class WordingError extends Error {
  readonly code: WordingErrorCode
  constructor(code: WordingErrorCode, key: string, language: string) {
    super(`Wording "${key}" in "${language}": ${explanations[code]}`)
    this.name = 'WordingError'
    this.code = code
  }
}

const explanations: Record<WordingErrorCode, string> = {
  'unknown-key': 'there is no such text',
  'missing-value': 'a value that the text needs was not given',
  'unfit-value': 'a value that the text needs is of another kind',
  'unknown-exercise': 'the exercise has no words',
  'unfit-side': 'the exercise needs a side, or has none',
}

export interface WordsInput {
  readonly language: string
  /** Compiled once, when read: a message is filled in many times. */
  readonly messages: ReadonlyMap<string, IntlMessageFormat>
  readonly exercises: ReadonlyMap<ExerciseId, SidedWords>
}

export function createWords({ language, messages, exercises }: WordsInput): Words {
  const sidedWords = (id: ExerciseId): SidedWords => {
    const words = exercises.get(id)
    if (words === undefined) throw new WordingError('unknown-exercise', id, language)
    return words
  }
  return {
    language,
    has: (key) => messages.has(key),
    say(key, values) {
      const message = messages.get(key)
      if (message === undefined) throw new WordingError('unknown-key', key, language)
      try {
        return String(message.format(values))
      } catch (error) {
        // The library's own error quotes the text; only the reason is taken from it.
        const isMissing = (error as { code?: unknown }).code === ErrorCode.MISSING_VALUE
        throw new WordingError(isMissing ? 'missing-value' : 'unfit-value', key, language)
      }
    },
    exercise(id, side) {
      const words = sidedWords(id).bySide.get(side ?? 'none')
      if (words === undefined) throw new WordingError('unfit-side', id, language)
      return words
    },
    exerciseShort(id, side) {
      const { name, bySide } = sidedWords(id)
      return bySide.get(side ?? 'none')?.short ?? name
    },
    hasSides: (id) => !sidedWords(id).bySide.has('none'),
    exerciseName: (id) => sidedWords(id).name,
  }
}
