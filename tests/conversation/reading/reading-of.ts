import { readFileSync } from 'node:fs'
import { readLexicon, type Lexicon } from '#src/content/lexicon.ts'
import { signNames, type SignName } from '#src/conversation/reading/signs.ts'
import { readMessage, type Awaiting, type Reading } from '#src/conversation/reading/read-message.ts'

/** A sign that has words of its own. */
export type WordedSign = Exclude<SignName, 'something-else'>
export const wordedSigns = signNames.filter((name): name is WordedSign => name !== 'something-else')

/** One language's lexicon, and what its reader makes of a text. */
export interface Reader {
  readonly lexicon: Lexicon
  read(text: string, awaiting?: Awaiting): Reading
  /** The signs that alarm at once. */
  surely(text: string, awaiting?: Awaiting): readonly string[]
  /** The signs that make the bot ask. */
  perhaps(text: string, awaiting?: Awaiting): readonly string[]
}

export function readerOf(language: string): Reader {
  const file = `content/lexicon/${language}.yaml`
  const lexicon = readLexicon(readFileSync(new URL(`../../../${file}`, import.meta.url), 'utf8'), file)
  const readAs = (text: string, awaiting: Awaiting = 'nothing'): Reading => readMessage(text, awaiting, lexicon)
  return {
    lexicon,
    read: readAs,
    surely: (text, awaiting) => readAs(text, awaiting).redFlags.map((flag) => flag.sign),
    perhaps: (text, awaiting) => readAs(text, awaiting).unsureFlags.map((flag) => flag.sign),
  }
}

export const { lexicon: english, read, surely, perhaps } = readerOf('en')
