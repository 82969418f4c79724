import type { JoinedClinic } from './joined-clinic.ts'

/** A conversation as its people see it, written down turn by turn in Markdown. */
export class WrittenConversation {
  private readonly clinic: JoinedClinic
  private readonly lines: string[] = []

  constructor(clinic: JoinedClinic) {
    this.clinic = clinic
  }

  write(text: string): this {
    this.lines.push(`**Orla:** ${text}`)
    this.clinic.client.write(text)
    return this.note()
  }

  press(label: string): this {
    this.lines.push(`**Orla** presses *${label}*`)
    this.clinic.client.press(label)
    return this.note()
  }

  /** The therapist presses; what she is answered is written down too. */
  therapistPresses(label: string): this {
    this.lines.push(`**Maren Holt** presses *${label}*`)
    this.clinic.maren.press(label)
    return this.note()
  }

  passes(amount: Parameters<JoinedClinic['rig']['pass']>[0], words: string): this {
    this.lines.push(`*(${words})*`)
    this.clinic.rig.pass(amount)
    return this.note()
  }

  note(): this {
    for (const [name, person] of [['Nuchal', this.clinic.client], ['Nuchal to Maren Holt', this.clinic.maren]] as const) {
      const read = person.read()
      if (read === '') continue
      for (const text of read.split('\n---\n')) this.lines.push(`**${name}:**\n${quoted(text)}`)
    }
    return this
  }

  toString(): string {
    return `${this.lines.join('\n\n')}\n`
  }
}

function quoted(text: string): string {
  return text.split('\n').map((line) => `> ${line}`.trimEnd()).join('  \n')
}
