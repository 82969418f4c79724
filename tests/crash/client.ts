// An invented client: answers each question once, as soon as it is on the screen, and writes to the therapist.
import type { BotApiDouble } from '#tests/support/bot-api/bot-api-double.ts'
import type { ShownMessage } from '#tests/support/bot-api/chat-book.ts'
import { flagWords, promptOf, questionOf, replyTo } from './answers.ts'
import { chanceOf } from './chance.ts'
import { saysUnheard } from './said.ts'

export interface Act {
  readonly question: string
  readonly pressed: string | null
  readonly said: string | null
}

export interface Client {
  readonly name: string
  readonly chat: number
  /** All that they did, in order. */
  readonly acts: readonly Act[]
  /** They did something and have got nothing since. */
  readonly isWaiting: boolean
  /** A new message has come. */
  take(message: ShownMessage): void
  say(text: string): void
  /** Another stretch of time: what is asked now is not what was asked before. */
  turnPage(page: number): void
}

export interface ClientParts {
  readonly name: string
  readonly chat: number
  readonly seed: number
  readonly double: BotApiDouble
}

export function createClient({ name, chat, seed, double }: ClientParts): Client {
  const acts: Act[] = []
  const answered = new Set<number>()
  const timesAsked = new Map<string, number>()
  const pressedLast = new Map<string, string | null>()
  let page = 0
  let isWaiting = false

  function say(text: string, question = ''): void {
    acts.push({ question, pressed: null, said: text })
    isWaiting = true
    double.say(chat, text)
  }

  function press(prompt: number, value: string): void {
    isWaiting = true
    double.pressData(chat, `p:${prompt}:${value}`)
  }

  /** Asked once more after a silence, they press what they had pressed; words are not lost and not said again. */
  function answerAgain(prompt: number, question: string): void {
    const value = pressedLast.get(question) ?? null
    if (value !== null) press(prompt, value)
  }

  function answer(message: ShownMessage, prompt: number): void {
    const question = questionOf(message)
    if (saysUnheard(message) && pressedLast.has(question)) return answerAgain(prompt, question)
    const times = (timesAsked.get(question) ?? 0) + 1
    timesAsked.set(question, times)
    const reply = replyTo(message, chanceOf(seed, name, page, question, times))
    pressedLast.set(question, reply.kind === 'press' ? reply.value : null)
    if (reply.kind === 'say') return say(reply.text, question)
    acts.push({ question, pressed: reply.value, said: null })
    press(prompt, reply.value)
  }

  return {
    name,
    chat,
    acts,
    get isWaiting() {
      return isWaiting
    },
    take(message) {
      isWaiting = false
      const prompt = promptOf(message)
      // The same question comes again where the process died before it knew that it had sent it.
      if (prompt === null || answered.has(prompt)) return
      answered.add(prompt)
      answer(message, prompt)
    },
    say: (text) => say(text),
    turnPage(next) {
      page = next
      timesAsked.clear()
      pressedLast.clear()
    },
  }
}

export function flagsOf({ acts }: Client): number {
  return acts.filter(({ said }) => said === flagWords).length
}
