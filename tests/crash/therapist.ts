// The invented therapist, who looks at what has come once the clients are quiet: one matter after another, each by its first
// button; a lock is acknowledged, the client spoken with, and cleared.
import type { BotApiDouble } from '#tests/support/bot-api/bot-api-double.ts'
import type { ShownMessage } from '#tests/support/bot-api/chat-book.ts'
import { promptOf, valuesOf } from './answers.ts'

export interface Therapist {
  readonly chat: number
  readonly isWaiting: boolean
  take(message: ShownMessage): void
  say(text: string): void
  /** Does the next thing; false where nothing is left to do. */
  goOn(): boolean
}

const steps = ['acknowledge', 'contacted', 'clear'] as const

export function createTherapist(chat: number, double: BotApiDouble): Therapist {
  const done = new Set<string>()
  const toPress: string[] = []
  let question: ShownMessage | null = null
  let isWaiting = false

  function press(data: string): boolean {
    isWaiting = true
    double.pressData(chat, data)
    return true
  }

  function answer(message: ShownMessage, prompt: number): boolean {
    question = null
    const values = valuesOf(message)
    const value = values.includes('seen') ? 'seen' : values.includes('usual') ? 'usual' : (values[0] ?? '')
    return press(`p:${prompt}:${value}`)
  }

  /** Each matter once, whichever sending of it came. */
  function plan({ sent }: ShownMessage): void {
    const matters = sent.buttons.flatMap(({ data }) => (/^m:/.test(data) ? [{ data, act: data.split(':').at(-2) ?? '' }] : []))
    const locking = matters.filter(({ act }) => steps.some((step) => step === act))
    for (const { data, act } of locking.length > 1 ? locking : matters.slice(0, 1)) {
      // The revision differs between two sendings of the same matter.
      const key = `${data.split(':').slice(0, -3).join(':')}:${act}:${data.split(':').at(-1) ?? ''}`
      if (!done.has(key)) toPress.push(data)
      done.add(key)
    }
  }

  return {
    chat,
    get isWaiting() {
      return isWaiting
    },
    say(text) {
      isWaiting = true
      double.say(chat, text)
    },
    take(message) {
      isWaiting = false
      const prompt = promptOf(message)
      if (prompt !== null && !done.has(`p:${prompt}`)) question = message
      if (/^Why may .* train again\?/.test(message.sent.text.split('\n').at(-1) ?? '')) question = message
      plan(message)
    },
    goOn() {
      if (question !== null) {
        const prompt = promptOf(question)
        const key = `p:${prompt ?? `text ${question.sent.text}`}`
        if (prompt !== null) {
          done.add(key)
          return answer(question, prompt)
        }
        question = null
        this.say('Examined today, no sign left.')
        return true
      }
      const data = toPress.shift()
      return data === undefined ? false : press(data)
    },
  }
}
