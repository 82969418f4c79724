import type { Words } from '#src/content/content.ts'
import type { Lexicon } from '#src/content/lexicon.ts'
import type { Command } from '../reading/read-message.ts'
import type { Awaiting, Reading } from '../reading/read-message.ts'
import type { Question, Understood } from '../question.ts'

/** An option with its label worked out. */
export interface LabelledOption {
  readonly value: string
  readonly label: string
  readonly saidBy: readonly Command[]
  /** Typed phrases that mean it. */
  readonly saidAs?: readonly string[]
  /** Typed phrases that mean it anywhere in a text, unless one of the others stands in it as well. */
  readonly saidIn?: readonly string[]
  readonly unless?: readonly string[]
}

export interface AnswerContext {
  readonly words: Words
  /** The words of the language inside times, days and figures. */
  readonly lexicon: Lexicon
  /** The options on offer; empty for kinds without. */
  readonly options: readonly LabelledOption[]
  /** What has been taken of `several` so far. */
  readonly chosen: readonly string[]
}

export interface PlainButton {
  readonly label: string
  readonly value: string
}

/** How one kind of question is read and shown. */
export interface QuestionKindReader<Q extends Question> {
  /** What the reader of free text is told to look for. */
  readonly awaiting: Awaiting
  readonly read: (question: Q, text: string, reading: Reading, context: AnswerContext) => Understood
  /** A button's value, which has been offered by {@link buttons} of the same question. */
  readonly press: (question: Q, value: string, context: AnswerContext) => Understood
  readonly buttons: (question: Q, context: AnswerContext) => readonly (readonly PlainButton[])[]
}

export function answer(value: Extract<Understood, { kind: 'answer' }>['value']): Understood {
  return { kind: 'answer', value }
}

export function unusable(reason: string, values?: Readonly<Record<string, string | number>>): Understood {
  return values === undefined ? { kind: 'unusable', reason } : { kind: 'unusable', reason, values }
}
