import type { Reading } from '#src/conversation/reading/read-message.ts'
import { alertLevels, type AlertLevel } from '#src/domain/triage.ts'
import { alternatives, levels, type LabelledMessage } from './messages.ts'

/** How many of how many. */
export interface Share {
  readonly right: number
  readonly of: number
}

/** One thing that was read otherwise than it was labelled. */
export interface Miss {
  /** The message's place in its file, counted from 1. */
  readonly number: number
  readonly text: string
  readonly expected: string
  readonly got: string
}

/** What a file of labelled messages says of a reader. */
export interface Score {
  readonly messages: number
  /** Signs that are said to be so and alarm at once, under the name of the label or a graver one of its kind. */
  readonly recall: Readonly<Record<AlertLevel, Share>>
  /** The same of emergency and urgent signs, any alarm of that level or above counting, whatever its name. */
  readonly alarmed: Share
  /** The same, a question counting as well: about the sign, about another of its level, or about all of them. */
  readonly alarmedOrAsked: Share
  /** Alarms at once that the label has among what is so, or among what may be meant. */
  readonly precision: Share
  /** Messages where a nurse would ask, and the bot asks or alarms. */
  readonly asked: Share
  /** Messages without a sign or a doubt, that are left alone. */
  readonly undisturbed: Share
  /** Answers, with no sign in them, read as labelled; null is read for what answers nothing. */
  readonly values: Share
  /** Messages that answer a question and are not read as another value than the label's: asking again is not wrong. */
  readonly notWrong: Share
  readonly stops: Share
  readonly missedSigns: readonly Miss[]
  readonly falseAlarms: readonly Miss[]
  /** Alarms at once where a question would have done. */
  readonly early: readonly Miss[]
  readonly unasked: readonly Miss[]
  readonly disturbed: readonly Miss[]
  readonly missedValues: readonly Miss[]
  readonly wrongValues: readonly Miss[]
  readonly missedStops: readonly Miss[]
}

interface Item {
  readonly number: number
  readonly label: LabelledMessage
  readonly reading: Reading
  readonly sure: readonly string[]
  readonly unsure: readonly string[]
}

/** A graver sign of the same kind covers the lesser: it errs to the safe side, though it may be a false alarm. */
const graver: Readonly<Partial<Record<string, string>>> = {
  'other-trauma': 'dangerous-trauma',
  'light-headed': 'spinning-lasting',
  'slow-weakness': 'sudden-weakness',
  'pain-unlike-any': 'sudden-worst-headache',
}

/** Asked whether anything on the whole list is so. */
const anySign = 'something-else'

/** Reads every message and holds what was read against its label. */
export function score(messages: readonly LabelledMessage[], read: (message: LabelledMessage) => Reading): Score {
  const items = messages.map((label, index): Item => {
    const reading = read(label)
    return {
      number: index + 1,
      label,
      reading,
      sure: reading.redFlags.map(({ sign }) => String(sign)),
      unsure: reading.unsureFlags.map(({ sign }) => String(sign)),
    }
  })
  return { messages: items.length, ...scoreSigns(items), ...scoreDoubts(items), ...scoreAnswers(items) }
}

function scoreSigns(items: readonly Item[]) {
  const said = items.flatMap((item) => item.label.signs.map((sign) => ({ item, sign, level: levelOf(sign) })))
  const grave = said.filter(({ level }) => level !== 'routine')
  const isRead = ({ item, sign }: { item: Item; sign: string }) =>
    alternatives(sign).some((id) => item.sure.includes(id) || item.sure.includes(graver[id] ?? id))
  const recallOf = (level: AlertLevel) => shareOf(said.filter((each) => each.level === level), isRead)
  const alarms = items.flatMap((item) => item.sure.map((sign) => ({ item, sign })))
  const isLabelled = ({ item, sign }: { item: Item; sign: string }) => item.label.signs.flatMap(alternatives).includes(sign)
  const isDoubted = ({ item, sign }: { item: Item; sign: string }) => item.label.asks.includes(sign)
  const unlabelled = alarms.filter((alarm) => !isLabelled(alarm))
  return {
    recall: { emergency: recallOf('emergency'), urgent: recallOf('urgent'), routine: recallOf('routine') },
    alarmed: shareOf(grave, ({ item, level }) => item.sure.some((sign) => isAtLeast(levelOf(sign), level))),
    alarmedOrAsked: shareOf(grave, ({ item: { sure, unsure }, level }) =>
      unsure.includes(anySign) || [...sure, ...unsure].some((sign) => isAtLeast(levelOf(sign), level)),
    ),
    precision: shareOf(alarms, (alarm) => isLabelled(alarm) || isDoubted(alarm)),
    missedSigns: grave.filter((each) => !isRead(each)).map(({ item, sign }) => miss(item, sign, flagsOf(item))),
    falseAlarms: unlabelled.filter((alarm) => !isDoubted(alarm)).map(({ item, sign }) => miss(item, signsOf(item), sign)),
    early: unlabelled.filter(isDoubted).map(({ item, sign }) => miss(item, signsOf(item), sign)),
  }
}

function scoreDoubts(items: readonly Item[]) {
  const doubtful = items.filter(({ label }) => label.signs.length === 0 && label.asks.length > 0)
  const plain = items.filter(({ label }) => label.signs.length + label.asks.length === 0)
  const isAsked = ({ label, sure, unsure }: Item) => unsure.includes(anySign) || label.asks.some((sign) => sure.includes(sign) || unsure.includes(sign))
  const isUndisturbed = ({ sure, unsure }: Item) => sure.length + unsure.length === 0
  return {
    asked: shareOf(doubtful, isAsked),
    undisturbed: shareOf(plain, isUndisturbed),
    unasked: doubtful.filter((item) => !isAsked(item)).map((item) => miss(item, signsOf(item), flagsOf(item))),
    disturbed: plain.filter((item) => !isUndisturbed(item)).map((item) => miss(item, 'nothing', flagsOf(item))),
  }
}

function scoreAnswers(items: readonly Item[]) {
  const questioned = items.filter(({ label }) => label.awaiting !== 'nothing')
  const answers = questioned.filter(({ label }) => label.signs.length + label.asks.length === 0)
  const isRight = ({ label, reading }: Item) => reading.value === (label.value ?? null)
  const isNotWrong = (item: Item) => item.reading.value === null || isRight(item)
  const isStopRight = ({ label, reading }: Item) => reading.stop === label.stop
  const valueMiss = (item: Item) =>
    miss(item, `${item.label.awaiting}: ${item.label.value ?? null}`, `${item.reading.value}${asideOf(item)}`)
  return {
    values: shareOf(answers, isRight),
    notWrong: shareOf(questioned, isNotWrong),
    stops: shareOf(items, isStopRight),
    missedValues: answers.filter((item) => !isRight(item)).map(valueMiss),
    wrongValues: questioned.filter((item) => !isNotWrong(item)).map(valueMiss),
    missedStops: items
      .filter((item) => !isStopRight(item))
      .map((item) => miss(item, `stop ${item.label.stop}`, `stop ${item.reading.stop}`)),
  }
}

function levelOf(sign: string): AlertLevel {
  const level = levels.get(alternatives(sign)[0] ?? '')
  if (!level) throw new Error(`the triage content has no sign ${sign}`)
  return level
}

function isAtLeast(level: AlertLevel, least: AlertLevel): boolean {
  return alertLevels.indexOf(level) >= alertLevels.indexOf(least)
}

function shareOf<T>(all: readonly T[], isRight: (one: T) => boolean): Share {
  return { right: all.filter(isRight).length, of: all.length }
}

/** 1 of nothing: nothing was wrong. */
export function fractionOf({ right, of }: Share): number {
  return of === 0 ? 1 : right / of
}

function miss({ number, label: { text } }: Item, expected: string, got: string): Miss {
  return { number, text, expected, got }
}

function flagsOf({ sure, unsure }: Item): string {
  return [...sure, ...unsure.map((sign) => `${sign}?`)].join(', ') || 'nothing'
}

function asideOf(item: Item): string {
  return item.sure.length + item.unsure.length === 0 ? '' : ` (${flagsOf(item)})`
}

function signsOf({ label }: Item): string {
  return [...label.signs, ...label.asks.map((sign) => `${sign}?`)].join(', ') || 'nothing'
}
