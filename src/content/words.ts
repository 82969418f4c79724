import { ErrorCode, type IntlMessageFormat } from 'intl-messageformat'
import type { ExerciseWords } from '#src/domain/exercise.ts'
import type { ExerciseId } from '#src/domain/identifier.ts'
import type { Words } from './content.ts'

export type WordingErrorCode = 'unknown-key' | 'missing-value' | 'unfit-value' | 'unknown-exercise'

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
}

export interface WordsInput {
  readonly language: string
  /** Compiled once, when read: a message is filled in many times. */
  readonly messages: ReadonlyMap<string, IntlMessageFormat>
  readonly exercises: ReadonlyMap<ExerciseId, ExerciseWords>
}

export function createWords({ language, messages, exercises }: WordsInput): Words {
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
    exercise(id) {
      const words = exercises.get(id)
      if (words === undefined) throw new WordingError('unknown-exercise', id, language)
      return words
    },
  }
}
