// What an invented client answers to a question on the screen.
import type { ShownMessage } from '#tests/support/bot-api/chat-book.ts'
import { pick } from './chance.ts'

export type Reply = { readonly kind: 'press'; readonly value: string } | { readonly kind: 'say'; readonly text: string }

export const flagWords = 'my left hand has gone numb and tingly'

/** The number of the question, as the buttons carry it; null for a message that asks nothing. */
export function promptOf({ sent }: ShownMessage): number | null {
  const match = /^p:(\d+):/.exec(sent.buttons[0]?.data ?? '')
  return match === null ? null : Number(match[1])
}

export function valuesOf({ sent }: ShownMessage): readonly string[] {
  return sent.buttons.flatMap(({ data }) => /^p:\d+:(.*)$/s.exec(data)?.[1] ?? [])
}

/** What is asked, without what was said before it. */
export function questionOf({ sent }: ShownMessage): string {
  return sent.text.split('\n').at(-1) ?? ''
}

interface Rule {
  /** Values of buttons by which the question is known. */
  readonly has: readonly string[]
  readonly reply: (chance: number, values: readonly string[]) => Reply
}

const press = (value: string): Reply => ({ kind: 'press', value })
const oneOf = (...values: readonly string[]) => (chance: number): Reply => press(pick(values, chance))

/** The first that fits. Pain stays below what ends a session; now and then somebody writes of a sign. */
const rules: readonly Rule[] = [
  { has: ['ready', 'later'], reply: () => press('ready') },
  { has: ['next'], reply: () => press('next') },
  { has: ['yes', 'no'], reply: () => press('yes') },
  { has: ['better', 'same', 'worse'], reply: oneOf('better', 'same') },
  { has: ['done', 'unfinished'], reply: oneOf('done', 'done', 'done', 'done', 'done', 'done', 'done', 'unfinished') },
  { has: ['done', 'cannot'], reply: () => press('done') },
  { has: ['none'], reply: () => press('none') },
  { has: ['steady', 'shaky', 'lost'], reply: oneOf('steady', 'steady', 'steady', 'steady', 'steady', 'shaky') },
  { has: ['0', '10'], reply: (chance) => (chance > 0.975 ? { kind: 'say', text: flagWords } : oneOf('0', '1', '1', '2', '2', '3')(chance)) },
  { has: ['0', '5'], reply: oneOf('1', '2', '3', '4') },
]

/** An unknown question is answered by its last button, which is the way on in every list of ours. */
export function replyTo(message: ShownMessage, chance: number): Reply {
  const values = valuesOf(message)
  const rule = rules.find(({ has }) => has.every((value) => values.includes(value)))
  return rule === undefined ? press(values.at(-1) ?? '') : rule.reply(chance, values)
}
