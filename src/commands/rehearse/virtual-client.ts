// A client who answers from a script or of their own mind, through the same messages and presses as a real one.
import type { Chart } from '#src/chart/chart.ts'
import type { Conversation } from '#src/conversation/flow.ts'
import { isCheckIn } from '#src/chart/client/reminders.ts'
import { mostReserveOnButton } from '#src/conversation/questions/about-a-set.ts'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Contact } from '#src/domain/message.ts'
import { isWhole, type SetAnswer } from './answers-schema.ts'
import type { Attendance } from './attendance.ts'
import type { VirtualClinic } from './virtual-clinic.ts'

const contact: Contact = { channel: 'virtual', address: 'client' }
const invitation = { token: '', link: '' }

export class VirtualClient {
  private readonly clinic: VirtualClinic
  private readonly chartId: DocumentId
  private readonly usualPain: number
  private readonly hasSaid = new Set<string>()

  constructor(clinic: VirtualClinic, chartId: DocumentId, usualPain: number) {
    this.clinic = clinic
    this.chartId = chartId
    this.usualPain = usualPain
  }

  /** Opens the invitation, agrees and keeps zone and time. */
  join(): void {
    this.clinic.submit(this.chartId, { kind: 'told', from: this.chartId, told: { kind: 'joined', contact } })
    while (this.top()?.flow === 'consent') this.press(this.top()?.state === 'about' ? 'next' : 'yes')
  }

  /** Begins the session if the reminder has not, and answers until it has to wait for something that stays unanswered. */
  train(attendance: Attendance): void {
    const open = this.top()?.flow
    if (open === undefined || isCheckIn(open)) this.write('ready')
    this.answerAll((top) => this.inSession(top, attendance))
  }

  /** The morning after; it may stay unanswered. */
  wakeUp(attendance: Attendance): void {
    this.answerAll((top) => (top.flow === 'morning' ? this.inMorning(attendance) : this.elsewhere(top)))
  }

  private answerAll(answer: (top: Conversation) => (() => void) | null): void {
    for (let top = this.top(); top !== undefined; top = this.top()) {
      const act = answer(top)
      if (act === null) return
      act()
    }
  }

  private inSession(top: Conversation, attendance: Attendance): (() => void) | null {
    if (top.flow !== 'session') return this.elsewhere(top)
    const about = top.state === 'pain-now' ? attendance.before() : isAboutSet(top.state) ? this.answerDue(attendance) : null
    const name = `${attendance.answers.day} ${top.state === 'pain-now' ? 'before' : this.setName()}`
    const says = about?.says
    if (says && !this.hasSaid.has(name)) {
      return () => {
        this.hasSaid.add(name)
        this.write(says)
      }
    }
    if (top.state === 'pain-now') return about?.pain != null ? () => this.press(String(about.pain)) : null
    return inSession[top.state]?.(this, isAboutSet(top.state) ? this.answerDue(attendance) : null) ?? null
  }

  private inMorning(attendance: Attendance): (() => void) | null {
    const pain = attendance.morning()?.pain
    return pain != null ? () => this.write(String(pain)) : null
  }

  /** What a script cannot answer is taken as unremarkable. */
  private elsewhere(top: Conversation): (() => void) | null {
    const act = unremarkable[`${top.flow}.${top.state}`]
    return act ? () => act(this) : null
  }

  private answerDue(attendance: Attendance): SetAnswer | null {
    const asked = this.chart().session?.asked
    return asked ? attendance.set(asked, asked.number - 1) : null
  }

  private setName(): string {
    const asked = this.chart().session?.asked
    return asked ? `${asked.direction} ${asked.number}` : ''
  }

  usual(): string {
    return String(this.usualPain)
  }

  /** More than the buttons have is typed. */
  tellReserve(reserve: number): void {
    if (reserve <= mostReserveOnButton) this.press(String(reserve))
    else this.write(String(reserve))
  }

  write(text: string): void {
    this.clinic.submit(this.chartId, { kind: 'message', from: contact, text, invitation, isEdit: false })
  }

  press(value: string): void {
    this.clinic.submit(this.chartId, { kind: 'press', from: contact, data: `p:${this.chart().prompt?.number ?? 0}:${value}`, invitation })
  }

  private chart(): Chart {
    return this.clinic.chart(this.chartId)
  }

  private top(): Conversation | undefined {
    return this.chart().conversations.at(-1)
  }
}

function isAboutSet(state: string): boolean {
  return state === 'set' || state === 'pain' || state === 'control' || state === 'reserve'
}

type Answering = (client: VirtualClient, answer: SetAnswer | null) => () => void

/** Moderate, out of ten: how hard a session was changes nothing. */
const unremarkableEffort = '3'

const inSession: Readonly<Record<string, Answering>> = {
  ready: (client) => () => client.press('ready'),
  screen: (client) => () => client.press('none'),
  morning: (client) => () => client.press('forgotten'),
  'worst-since': (client) => () => client.press(client.usual()),
  'warm-up': (client) => () => client.press('done'),
  set: (client, answer) => () => client.press(!isWhole(answer) ? 'left-out' : answer.finished === false ? 'unfinished' : 'done'),
  pain: (client, answer) => () => client.press(String(answer?.pain)),
  control: (client, answer) => () => client.press(String(answer?.control)),
  reserve: (client, answer) => () => client.tellReserve(answer?.reserve ?? 0),
  effort: (client) => () => client.press(unremarkableEffort),
}

const unremarkable: Readonly<Record<string, (client: VirtualClient) => void>> = {
  'symptom.ask': (client) => client.press('none'),
  'symptom.unclear': (client) => client.press('none'),
  'symptom.which': (client) => client.press('none'),
  'symptom.confirm': (client) => client.press('no'),
  'symptom.known': (client) => client.press('usual'),
  'called.called': (client) => client.press('called'),
  'weekly.now': (client) => client.write(client.usual()),
  'weekly.best': (client) => client.write(client.usual()),
  'weekly.worst': (client) => client.write(client.usual()),
  'weekly.activity': (client) => client.press('no-more'),
  'weekly.score': (client) => client.press('10'),
  'weekly.change': (client) => client.press('same'),
  'weekly.how-much': (client) => client.press('skip'),
}
