import type { Command } from './reading/read-message.ts'

/** One answer that can be pressed or typed. */
export interface Option {
  readonly value: string
  /** Key of the label; options made on the way (a client's name) carry their label instead. */
  readonly words?: string
  readonly label?: string
  /** A command that means the same when typed. */
  readonly saidBy?: readonly Command[]
  /** Key of what else means the same when it is all that is typed; `|` separates. */
  readonly saidAs?: string
  /** Key of what means it wherever it stands in what is typed, where whoever answers may not be calm enough for less. */
  readonly saidIn?: string
  /** Key of words beside which `saidIn` does not count. */
  readonly unless?: string
}

/** What a state of a flow waits for; one file per kind stands in `questions/`. */
export type Question =
  /** An old answer may have been forgotten; one about now may not. */
  | { readonly kind: 'pain'; readonly mayBeForgotten?: boolean }
  | { readonly kind: 'control' }
  | { readonly kind: 'reserve' }
  | { readonly kind: 'yes-no' }
  | { readonly kind: 'choice'; readonly options: readonly Option[] }
  /** A choice that also takes a pain number, which then answers the next question as well. */
  | { readonly kind: 'choice-or-pain'; readonly options: readonly Option[] }
  /** The options depend on the document, under this name. */
  | { readonly kind: 'open-choice'; readonly from: string }
  /** Several of the open options, then done. */
  | { readonly kind: 'several'; readonly from: string }
  | { readonly kind: 'text'; readonly mayBeEmpty?: boolean }
  | { readonly kind: 'number'; readonly least: number; readonly most: number; readonly isWhole?: boolean; readonly mayBeNone?: boolean }
  | { readonly kind: 'numbers'; readonly least: number; readonly most: number }
  | { readonly kind: 'wall-time' }
  | { readonly kind: 'time-span' }
  | { readonly kind: 'weekdays' }
  /** A calendar day; some are on offer under this name, with their dates as values. */
  | { readonly kind: 'date'; readonly from: string }
  | { readonly kind: 'zone' }
  | { readonly kind: 'blood-pressure' }
  | { readonly kind: 'band' }
  /** A long-standing sign in words, with its side, area and worst level. */
  | { readonly kind: 'known-sign' }
  /** The trials of a maximal test with their unit, and the lever arm where it is known. */
  | { readonly kind: 'measured-force'; readonly mayBeNone?: boolean }
  | { readonly kind: 'phone' }
  /** One whole number of a scale, on buttons. */
  | { readonly kind: 'scale'; readonly least: number; readonly most: number; readonly mayBeSkipped?: boolean }
  /** Something a client wants to be able to do, in their own words; empty where there is no more. */
  | { readonly kind: 'activity' }
  /** Ten item scores of 0 to 5, some of them missing. */
  | { readonly kind: 'item-scores' }

export type QuestionKind = Question['kind']

/** An answer as it was understood. */
export type Answer = string | number | boolean | null | readonly unknown[] | Readonly<Record<string, unknown>>

/** A person's unusable answer is a value with a reason key, and the bot asks again. */
export type Understood =
  | { readonly kind: 'answer'; readonly value: Answer }
  /** One of several is taken or put back; the question stays open. */
  | { readonly kind: 'toggle'; readonly value: string }
  | { readonly kind: 'unusable'; readonly reason: string; readonly values?: Readonly<Record<string, string | number>> }
