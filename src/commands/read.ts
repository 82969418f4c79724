import type { Content } from '#src/content/content.ts'
import { readMessage, type Awaiting } from '#src/conversation/reading/read-message.ts'
import type { RedFlag } from '#src/domain/triage.ts'
import { InputError } from './input-error.ts'

export const awaitings = ['pain', 'control', 'reserve', 'yesno', 'nothing'] as const satisfies readonly Awaiting[]

export interface ReadOut {
  readonly value: number | string | boolean | null
  readonly redFlags: readonly RedFlag[]
  readonly stop: boolean
  readonly understood: boolean
}

/** How a message is understood, as `read` prints it. */
export function read(text: string, awaiting: Awaiting, locale: string, content: Content): ReadOut {
  const language = content.languages.get(locale)
  if (!language) throw new InputError(`--locale ${locale} has no wording. Write one of: ${[...content.languages.keys()].join(', ')}.`)
  const { value, redFlags, stop, understood } = readMessage(text, awaiting, language.lexicon)
  return { value, redFlags: redFlags.map(({ level, sign }) => ({ level, sign })), stop, understood }
}
