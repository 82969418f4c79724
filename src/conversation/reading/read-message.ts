import type { Lexicon } from '#src/content/lexicon.ts'
import type { Control } from '#src/domain/set-report.ts'
import type { RedFlag } from '#src/domain/triage.ts'
import { findWhole } from './clauses.ts'
import { correctSlips } from './correct-slips.ts'
import { findPhrases, type Found } from './find-phrases.ts'
import { markText, type MarkedText } from './marked-text.ts'
import { matchedWords, type MatchedWords } from './matched-words.ts'
import { phraseBookOf } from './phrase-book.ts'
import { readQuantities, type Quantity } from './quantities.ts'
import { readCommand, wantsToStop, type Command } from './read-command.ts'
import { readControl, readToldControl } from './read-control.ts'
import { readPain, readReserve, readToldReserve } from './read-number.ts'
import { readSigns, wobbleOf, type Asked, type SignsRead } from './read-signs.ts'
import { isCorrection, readYesNo } from './read-yes-no.ts'
import { suspectedIn } from './suspicion.ts'
import { tokenise } from './token.ts'

export type { Command } from './read-command.ts'

/** What the conversation waits for. */
export type Awaiting = 'pain' | 'control' | 'reserve' | 'yesno' | 'nothing'

/** What a client tells of a set without having been asked; null where nothing is told. */
export interface AlsoTold {
  readonly control: Control | null
  readonly reserve: number | null
  readonly isUnfinished: boolean
}

/** How a message is understood. */
export interface Reading {
  readonly value: number | Control | boolean | null
  /** Said to be so: alarm at once. Worst level first, each sign once. */
  readonly redFlags: readonly RedFlag[]
  /** Asked, feared, past or vague: the bot pauses and asks. */
  readonly unsureFlags: readonly RedFlag[]
  /** For each sign of these two, the words that made it, as typed. */
  readonly matched: readonly MatchedWords[]
  /** What was told besides the value, of a set: "2, no wobble, 3 left". */
  readonly alsoTold: AlsoTold
  /** "Same as before" and nothing else; what that was, the reader cannot know. */
  readonly sameAsBefore: boolean
  /** The client wants to stop, in any words. */
  readonly stop: boolean
  readonly command: Command | null
  /** An earlier answer is taken back: "sorry, I meant 2". */
  readonly isCorrection: boolean
  /** Something usable was said: a value for what was awaited, a sign, a command or a wish to stop. */
  readonly understood: boolean
}

interface Said {
  readonly text: MarkedText
  readonly quantities: readonly Quantity[]
  readonly signs: SignsRead
  readonly lexicon: Lexicon
}

const readers: Readonly<Record<Awaiting, (said: Said) => Reading['value']>> = {
  pain: ({ text, quantities, signs, lexicon }) => readPain(text.found, quantities, signs.ache, lexicon.onlyCounts),
  control: ({ text }) => readControl(text),
  reserve: ({ text, quantities }) => readReserve(text.found, quantities),
  yesno: ({ text }) => readYesNo(text),
  nothing: () => null,
}

/**
 * Understands what a client types. Signs are looked for whatever is awaited, and a sentence that speaks of one is never
 * read as a value. Pure and table-driven: every word stands in the lexicon.
 */
export function readMessage(text: string, awaiting: Awaiting, lexicon: Lexicon): Reading {
  const book = phraseBookOf(lexicon)
  const tokens = tokenise(text, lexicon.spellings)
  const found = findPhrases(correctSlips(tokens, book), book)
  const marked = markText(found)
  const stop = wantsToStop(marked)
  const said = readCommand(found, stop)
  const signs = signsIn(marked, awaiting, () => (said === 'symptom' ? null : suspectedIn(tokens, lexicon.suspicion)))
  const hasSign = signs.sure.length + signs.unsure.length > 0
  const quantities = hasSign ? [] : quantitiesSaid(found, lexicon)
  const value = hasSign ? null : readers[awaiting]({ text: marked, quantities, signs, lexicon })
  // "None" answers what was asked, where it is an answer.
  const command = said === 'none' && value !== null ? null : said
  const sameAsBefore = !hasSign && value === null && findWhole('same-as-before', found) !== undefined
  const awaitsNumber = awaiting === 'pain' || awaiting === 'reserve'
  return {
    value,
    redFlags: signs.sure,
    unsureFlags: signs.unsure,
    matched: hasSign ? matchedWords(signs, found.tokens, text) : [],
    alsoTold: hasSign ? nothingTold : readTold(marked, awaiting, quantities),
    sameAsBefore,
    stop,
    command,
    isCorrection: isCorrection(found, awaitsNumber, value !== null),
    understood: value !== null || hasSign || sameAsBefore || command !== null || stop,
  }
}

/** Where no phrase tells of a sign, the words as a whole may still sound like one. */
function signsIn(text: MarkedText, awaiting: Awaiting, suspect: () => Asked | null): SignsRead {
  const signs = readSigns(text)
  if (signs.sure.length + signs.unsure.length > 0) return signs
  const wobble = awaiting === 'yesno' && readYesNo(text) === null ? wobbleOf(text) : null
  const asked = wobble ?? suspect()
  return asked === null ? signs : { ...signs, ...asked }
}

const nothingTold: AlsoTold = { control: null, reserve: null, isUnfinished: false }

function readTold(text: MarkedText, awaiting: Awaiting, quantities: readonly Quantity[]): AlsoTold {
  if (awaiting !== 'pain' && awaiting !== 'control') return nothingTold
  return {
    control: awaiting === 'pain' ? readToldControl(text) : null,
    reserve: readToldReserve(text.found, quantities),
    isUnfinished: text.found.all('not-finished').length > 0,
  }
}

/** After a correction only what follows it counts. */
function quantitiesSaid(found: Found, lexicon: Lexicon): readonly Quantity[] {
  const quantities = readQuantities(found, lexicon.numbers)
  const corrections = found.all('correction')
  const last = corrections.at(-1)
  const after = last === undefined ? [] : quantities.filter(({ start }) => start >= last.end)
  return after.length > 0 ? after : quantities
}
