// From the labelled messages of a language to its file of weights.
import { readFileSync } from 'node:fs'
import { readLexicon, type Lexicon } from '#src/content/lexicon.ts'
import { cluesAt, suspicionIn } from '#src/conversation/reading/suspicion.ts'
import { tokenise, type Token } from '#src/conversation/reading/token.ts'
import { learntFrom, type LabelledMessage } from '#tests/conversation/reading/labelled/messages.ts'
import { fit, type Lesson, type Weights } from './fit.ts'

/** Our choice: of twenty messages that are near a sign and none, one may be asked about. Most of what clients type is nothing like that. */
export const mostAskedInVain = 0.05
const folds = 5
/** Below this a weight tells nothing, and the file stays small. */
const leastWeight = 0.05

export interface Learnt {
  /** What stands in `content/suspicion`. */
  readonly file: string
  readonly messages: number
  readonly clues: number
  /** Of the messages with an emergency or urgent sign, each judged by what was learnt without it, the share that is suspected by words alone. */
  readonly suspected: number
  readonly askedInVain: number
}

export function learnLanguage(language: string): Learnt {
  const name = `content/lexicon/${language}.yaml`
  const lexicon = readLexicon(readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8'), name)
  const messages = learntFrom(language)
  const lessons = messages.map((message) => lessonOf(message, lexicon))
  const unseen = scoresUnseen(lessons)
  const threshold = round(thresholdOf(unseen.filter((_score, index) => !lessons[index]?.isSuspicious)))
  const { bias, weights } = fit(lessons)
  const kept = [...weights].map(([clue, weight]): [string, number] => [clue, round(weight)])
    .filter(([, weight]) => Math.abs(weight) >= leastWeight)
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
  const isAbove = (index: number): boolean => (unseen[index] ?? 0) >= threshold
  const share = (isCounted: (message: LabelledMessage) => boolean): number => {
    const counted = messages.flatMap((message, index) => (isCounted(message) ? [index] : []))
    return counted.filter(isAbove).length / counted.length
  }
  return {
    file: written({ language, threshold, bias: round(bias), weights: kept }),
    messages: messages.length,
    clues: kept.length,
    suspected: share(({ signs }) => signs.length > 0),
    askedInVain: share(({ signs, asks }) => signs.length + asks.length === 0),
  }
}

interface TokenLesson extends Lesson {
  readonly tokens: readonly Token[]
}

function lessonOf({ text, signs, asks }: LabelledMessage, { spellings }: Lexicon): TokenLesson {
  const tokens = tokenise(text, spellings)
  const clues = new Set(tokens.flatMap((_token, index) => cluesAt(tokens, index)))
  return { tokens, clues: [...clues], isSuspicious: signs.length + asks.length > 0 }
}

/** The score of each lesson by weights that were learnt without it. */
function scoresUnseen(lessons: readonly TokenLesson[]): readonly number[] {
  const weights = Array.from({ length: folds }, (_, fold): Weights => fit(lessons.filter((_lesson, index) => index % folds !== fold)))
  return lessons.map(({ tokens }, index) => suspicionIn(tokens, { threshold: 0, ...(weights[index % folds] as Weights) }).score)
}

function thresholdOf(scores: readonly number[]): number {
  return scores.toSorted((a, b) => b - a)[Math.floor(scores.length * mostAskedInVain)] ?? 0
}

function round(value: number): number {
  return Math.round(value * 100) / 100
}

interface Written {
  readonly language: string
  readonly threshold: number
  readonly bias: number
  readonly weights: readonly (readonly [string, number])[]
}

/** One weight a line, so that a change can be read. */
function written({ language, threshold, bias, weights }: Written): string {
  const lines = weights.map(([clue, weight]) => `    ${JSON.stringify(clue)}: ${weight}`)
  return `{\n  "language": "${language}",\n  "threshold": ${threshold},\n  "bias": ${bias},\n  "weights": {\n${lines.join(',\n')}\n  }\n}\n`
}
