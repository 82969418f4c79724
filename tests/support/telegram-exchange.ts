import type { Instant } from '#src/domain/identifier.ts'
import { describeInstant } from '#src/schedule/describe-instant.ts'

/** A message as it arrived. */
export interface Sent {
  readonly chat: number
  readonly text: string
  readonly buttons: readonly { readonly label: string; readonly data: string }[]
}

/** What went to and fro, as a person can read it. */
export class TelegramExchange {
  private readonly lines: string[] = []
  private readonly zone: string
  private taken = 0

  constructor(zone: string) {
    this.zone = zone
  }

  note(chat: number, text: string, at: Instant): void {
    this.lines.push(`${this.stamp(at)}  chat ${chat}: ${text}`)
  }

  /** All that was sent so far; what was taken before is passed over. */
  take(sent: readonly Sent[], at: Instant): void {
    for (const { chat, text, buttons } of sent.slice(this.taken)) {
      const labels = buttons.map(({ label }) => `[${label}]`).join(' ')
      this.lines.push(`${this.stamp(at)}  Nuchal to chat ${chat}: ${text}${labels === '' ? '' : `\n${labels}`}`)
    }
    this.taken = sent.length
  }

  text(): string {
    return `${this.lines.join('\n\n')}\n`
  }

  private stamp(at: Instant): string {
    return describeInstant(at, this.zone, 'en')
  }
}
