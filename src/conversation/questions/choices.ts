import type { Question, Understood } from '../question.ts'
import { normaliseText } from '../reading/normalise-text.ts'
import type { Reading } from '../reading/read-message.ts'
import { answer, unusable, type AnswerContext, type LabelledOption, type PlainButton, type QuestionKindReader } from './question-kind.ts'

type Of<Kind extends Question['kind']> = Extract<Question, { kind: Kind }>

/** "None of these" in lists of signs and conditions. */
export const noneOption = 'none'
export const doneOption = 'done'

export const yesNo: QuestionKindReader<Of<'yes-no'>> = {
  awaiting: 'yesno',
  read: (_question, _text, reading) => (typeof reading.value === 'boolean' ? answer(reading.value) : unusable('no-yes-or-no')),
  press: (_question, value) => answer(value === 'yes'),
  buttons: (_question, { words }) => [
    [
      { label: words.say('common.yes'), value: 'yes' },
      { label: words.say('common.no'), value: 'no' },
    ],
  ],
}

function readOption(text: string, reading: Reading, { options }: AnswerContext): Understood {
  const said = foldSaid(text)
  const found = options.find((option) => isMeant(option, said, reading)) ?? byNumber(text, options) ?? options.find((option) => isSaidIn(option, said))
  if (found) return answer(found.value)
  // "No" to a list of signs is "none of these"; "yes" is no answer, since it does not say which.
  const none = options.find((option) => option.value === noneOption)
  return none && reading.value === false ? answer(none.value) : unusable('no-such-choice')
}

/** `said` is null where something was asked: "no, worse" and "is it worse?" are not what they would be without their marks. */
function isMeant(option: LabelledOption, said: string | null, { command }: Reading): boolean {
  return [option.label, ...(option.saidAs ?? [])].some((phrase) => fold(phrase) === said) || (command !== null && option.saidBy.includes(command))
}

function isSaidIn({ saidIn = [], unless = [] }: LabelledOption, said: string | null): boolean {
  const holds = (phrase: string): boolean => ` ${said} `.includes(` ${fold(phrase)} `)
  return said !== null && saidIn.some(holds) && !unless.some(holds)
}

function foldSaid(text: string): string | null {
  return text.includes('?') ? null : fold(text)
}

function fold(text: string): string {
  return normaliseText(text).replaceAll(/[^\p{L}\p{N}]+/gu, ' ').trim()
}

/** Options may be answered by their place in the list; options that are numbers themselves (rungs) only by those. */
function byNumber(text: string, options: readonly LabelledOption[]): LabelledOption | undefined {
  const number = numberOf(text)
  const isNumbered = options.some((option) => /^\d+$/.test(option.value))
  return isNumbered ? options.find((option) => option.value === String(number)) : options[number - 1]
}

function numberOf(text: string): number {
  return /^\s*\d{1,2}[.)]?\s*$/.test(text) ? Number.parseInt(text, 10) : 0
}

function oneARow({ options }: AnswerContext): readonly (readonly PlainButton[])[] {
  return options.map(({ label, value }) => [{ label, value }])
}

function pressOption(value: string, { options }: AnswerContext): Understood {
  return options.some((option) => option.value === value) ? answer(value) : unusable('no-such-choice')
}

export const choice: QuestionKindReader<Of<'choice'>> = {
  awaiting: 'yesno',
  read: (_question, text, reading, context) => {
    const first = context.options[0]
    // A plain yes to a question with one way on, or whose first option is the way on, takes it.
    if (first && reading.value === true && (context.options.length === 1 || first.saidBy.length > 0)) return answer(first.value)
    return readOption(text, reading, context)
  },
  press: (_question, value, context) => pressOption(value, context),
  buttons: (_question, context) => oneARow(context),
}

export const choiceOrPain: QuestionKindReader<Of<'choice-or-pain'>> = {
  awaiting: 'pain',
  read: (_question, text, reading, context) => {
    if (typeof reading.value === 'number') return answer(reading.value)
    const chosen = readOption(text, reading, context)
    return chosen.kind === 'answer' && numberOf(text) === 0 ? chosen : unusable('no-such-choice')
  },
  press: (_question, value, context) => pressOption(value, context),
  buttons: (_question, context) => oneARow(context),
}

export const openChoice: QuestionKindReader<Of<'open-choice'>> = {
  awaiting: 'yesno',
  read: (_question, text, reading, context) => {
    if (reading.command === 'none') {
      const none = context.options.find((option) => option.value === noneOption)
      if (none) return answer(none.value)
    }
    return readOption(text, reading, context)
  },
  press: (_question, value, context) => pressOption(value, context),
  buttons: (_question, context) => oneARow(context),
}

/** Taken and put back one by one, or typed as a list of numbers; "done" or "none" ends it. */
export const several: QuestionKindReader<Of<'several'>> = {
  awaiting: 'yesno',
  read: (_question, text, reading, context) => {
    if (reading.command === 'none' || reading.value === false) return answer([])
    if (reading.command === 'done' || reading.command === 'ready' || reading.value === true) return answer([...context.chosen])
    const numbers = text.split(/[\s,;]+/).filter((part) => part !== '').map(Number)
    const chosen = numbers.map((number) => context.options[number - 1]?.value)
    if (numbers.length > 0 && chosen.every((value) => value !== undefined)) return answer(chosen)
    const named = readOption(text, reading, context)
    return named.kind === 'answer' ? { kind: 'toggle', value: String(named.value) } : named
  },
  press: (_question, value, context) => {
    if (value === doneOption) return answer([...context.chosen])
    return context.options.some((option) => option.value === value) ? { kind: 'toggle', value } : unusable('no-such-choice')
  },
  buttons: (_question, { words, options, chosen }) => [
    ...options.map(({ label, value }) => [{ label: chosen.includes(value) ? `✓ ${label}` : label, value }]),
    [{ label: words.say(chosen.length === 0 ? 'common.none-of-these' : 'common.that-is-all'), value: doneOption }],
  ],
}
