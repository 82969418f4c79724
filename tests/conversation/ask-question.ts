import type { Option, Question, Understood } from '#src/conversation/question.ts'
import type { AnswerContext, PlainButton } from '#src/conversation/questions/question-kind.ts'
import { awaitingOf, buttonsOf, readAnswer, readPress } from '#src/conversation/questions/registry.ts'
import { readMessage } from '#src/conversation/reading/read-message.ts'
import type { Language } from '#src/content/content.ts'
import { content } from '#tests/support/sample-chain.ts'

export const english: Language = languageOf('en')

function languageOf(name: string): Language {
  const language = content.languages.get(name)
  if (!language) throw new Error(`no language ${name}`)
  return language
}

function contextOf(options: readonly Option[], chosen: readonly string[], { words, lexicon } = english): AnswerContext {
  const labelled = options.map(({ value, words: key, label, saidBy = [], saidAs }) => ({
    value,
    label: label ?? (key === undefined ? value : words.say(key)),
    saidBy,
    saidAs: saidAs === undefined ? [] : words.say(saidAs).split('|'),
  }))
  return { words, lexicon, options: labelled, chosen }
}

/** How a typed answer is understood, read as the client's messages are. */
export function typed(question: Question, text: string, options: readonly Option[] = [], chosen: readonly string[] = []): Understood {
  return readAnswer(question, text, readMessage(text, awaitingOf(question), english.lexicon), contextOf(options, chosen))
}

/** The same in any language, for a question without options. */
export function typedIn(name: string, question: Question, text: string): Understood {
  return typedWith(languageOf(name), question, text)
}

export function typedWith(language: Language, question: Question, text: string): Understood {
  return readAnswer(question, text, readMessage(text, awaitingOf(question), language.lexicon), contextOf([], [], language))
}

export function pressed(question: Question, value: string, options: readonly Option[] = [], chosen: readonly string[] = []): Understood {
  return readPress(question, value, contextOf(options, chosen))
}

export function buttons(question: Question, options: readonly Option[] = [], chosen: readonly string[] = []): readonly PlainButton[] {
  return buttonsOf(question, contextOf(options, chosen)).flat()
}
