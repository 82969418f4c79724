import { readFileSync } from 'node:fs'
import { readLexicon } from '#src/content/lexicon.ts'
import { readMessage, type Awaiting, type Reading } from '#src/conversation/reading/read-message.ts'

const file = 'content/lexicon/en.yaml'

export const english = readLexicon(readFileSync(new URL(`../../../${file}`, import.meta.url), 'utf8'), file)

export function read(text: string, awaiting: Awaiting = 'nothing'): Reading {
  return readMessage(text, awaiting, english)
}

/** The signs that alarm at once. */
export function surely(text: string, awaiting: Awaiting = 'nothing'): readonly string[] {
  return read(text, awaiting).redFlags.map((flag) => flag.sign)
}

/** The signs that make the bot ask. */
export function perhaps(text: string, awaiting: Awaiting = 'nothing'): readonly string[] {
  return read(text, awaiting).unsureFlags.map((flag) => flag.sign)
}
