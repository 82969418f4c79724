import type { Chart } from '#src/chart/chart.ts'
import type { ShownMessage } from '#tests/support/bot-api/chat-book.ts'
import { promptOf } from './answers.ts'

/** The open question stands on the screen as it was asked. One without buttons is known by its text. */
export function isAskedOn({ prompt }: Chart, messages: readonly ShownMessage[]): boolean {
  if (prompt === null) return true
  return messages.some(({ sent, edits, ...message }) => {
    const isIt = sent.buttons.length === 0 || promptOf({ ...message, sent, edits }) === prompt.number
    return isIt && edits === 0 && sent.text === prompt.text.trim()
  })
}
