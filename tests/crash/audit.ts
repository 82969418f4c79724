// What the store and the screens must show after a run with kills. Each finding is one line.
import type { ShownMessage } from '#tests/support/bot-api/chat-book.ts'
import { flagWords, promptOf, valuesOf } from './answers.ts'
import type { Act, Client } from './client.ts'
import type { Lived } from './clinic.ts'
import { decided, readRecords, type ClientRecord } from './records.ts'
import { controlAsked, painAsked, reserveAsked, saysOutdated, saysUnheard } from './said.ts'
import { isAskedOn } from './screen.ts'

export interface Audited {
  readonly findings: readonly string[]
  readonly counts: { readonly answers: number; readonly sets: number; readonly texts: number; readonly alerts: number; readonly repeated: number }
}

/** `calm`: what an uninterrupted run of the same answers left behind. */
export async function audit(lived: Lived, calm: ReadonlyMap<string, ClientRecord>): Promise<Audited> {
  const records = await readRecords(lived.environment)
  const findings = [...lived.faults]
  const counts = { answers: 0, sets: 0, texts: 0, alerts: 0, repeated: 0 }
  for (const client of lived.clients) {
    const record = records.get(client.name)
    if (record === undefined) {
      findings.push(`${client.name}: no record at all`)
      continue
    }
    const messages = lived.double.messages(client.chat)
    const find = (text: string): void => void findings.push(`${client.name}: ${text}`)
    const sets = setsOf(client)
    compare('sets', sets, record.entries.filter(({ kind }) => kind === 'set').map(({ data }) => reportOf(data['report'])), find)
    const texts = client.acts.flatMap(({ said }) => said ?? [])
    compare('texts', texts, storedTexts(record), find)
    checkEntryIds(record, find)
    if (pressesTakenTwice(messages) > 0) find('a press was taken a second time')
    if (!isAskedOn(record.chart, messages)) find(`the open question ${record.chart.prompt?.number} is not on the screen`)
    const alerts = checkAlerts(client, record, lived.double.messages(lived.therapist.chat), find)
    if (remindersBeyondTwo(messages) > 0) find('a reminder came more than twice')
    if (record.owed > 0) find(`${record.owed} effects are still owed`)
    compare('decisions', decided(calm.get(client.name)!), decided(record), find)
    counts.answers += client.acts.length
    counts.sets += sets.length
    counts.texts += texts.length
    counts.alerts += alerts
    counts.repeated += repeatsAmong(messages)
  }
  // A run in which nothing was asked would find nothing.
  if (counts.sets === 0 || counts.texts === 0) findings.push('the run was too short to show anything: no set or no text')
  return { findings, counts }
}

/** The first difference says the most; what follows from it would only hide it. */
function compare(what: string, expected: readonly string[], actual: readonly string[], find: (text: string) => void): void {
  const at = expected.findIndex((one, index) => one !== actual[index])
  const from = at < 0 && actual.length > expected.length ? expected.length : at
  if (from < 0) return
  find(`${what} ${from + 1} of ${expected.length}/${actual.length}: expected ${expected[from] ?? 'nothing'}, stored ${actual[from] ?? 'nothing'}`)
}

/** Texts that raise an alert are recorded as words, those for the therapist as messages. */
function storedTexts({ entries }: ClientRecord): readonly string[] {
  return entries.flatMap(({ kind, by, data }) => {
    if (by !== 'client' || (kind !== 'words' && kind !== 'message')) return []
    return kind === 'words' ? [String(data['text'])] : [`tell my therapist: ${String(data['text'])}`]
  })
}

/** What the client answered of each set, as they know it. */
function setsOf({ acts }: Client): readonly string[] {
  const sets: string[] = []
  let isFinished = true
  let pain = ''
  let control = ''
  for (const { question, pressed, said } of acts) {
    if (pressed === 'done' || pressed === 'unfinished') isFinished = pressed === 'done'
    else if (question === painAsked && said !== null) sets.push('none')
    else if (question === painAsked) pain = String(pressed)
    else if (question === controlAsked) control = String(pressed)
    else if (question === reserveAsked) sets.push(JSON.stringify([isFinished, Number(pain), control, Number(pressed)]))
  }
  return sets
}

function reportOf(report: unknown): string {
  if (report === null || report === undefined) return 'none'
  const { finished, pain, control, reserve } = report as { finished: boolean; pain: number; control: string; reserve: number }
  return JSON.stringify([finished, pain, control, reserve])
}

function checkEntryIds({ entries }: ClientRecord, find: (text: string) => void): void {
  const ids = entries.map(({ id }) => id)
  const twice = ids.filter((id, index) => ids.indexOf(id) !== index)
  if (twice.length > 0) find(`${twice.length} entries stand twice`)
}

/** Every sign that was written raised an alert, and every alert came to the therapist. */
function checkAlerts({ acts }: Client, { entries }: ClientRecord, toTherapist: readonly ShownMessage[], find: (text: string) => void): number {
  const alerts = entries.filter(({ kind }) => kind === 'alert')
  const shown = new Set(toTherapist.flatMap(({ sent }) => sent.buttons.map(({ data }) => data.split(':').slice(4).join(':'))))
  for (const { data } of alerts) if (!shown.has(String(data['alert']))) find(`the alert ${String(data['alert'])} never came to the therapist`)
  const flags = acts.filter(isFlag).length
  const raised = alerts.filter(({ data }) => data['level'] === 'urgent').length
  if (flags !== raised) find(`${flags} signs were written and ${raised} urgent alerts raised`)
  return alerts.length
}

function isFlag({ said }: Act): boolean {
  return said === flagWords
}

/** Messages that came more than once because the process died before it knew that they were out. */
function repeatsAmong(messages: readonly ShownMessage[]): number {
  const prompts = messages.flatMap((message) => promptOf(message) ?? [])
  return prompts.length - new Set(prompts).size
}

/** Each copy of a question is pressed once: an outdated press is an update taken twice, or a copy asked again after a silence. */
function pressesTakenTwice(messages: readonly ShownMessage[]): number {
  return messages.filter(saysOutdated).length - messages.filter(saysUnheard).length
}

/** Asked whether they are ready: a reminder may reach somebody twice and not three times; a question asked again is none. */
function remindersBeyondTwo(messages: readonly ShownMessage[]): number {
  const reminders = messages.filter((message) => valuesOf(message).includes('ready') && !saysUnheard(message)).map((message) => promptOf(message))
  return [...new Set(reminders)].filter((prompt) => reminders.filter((one) => one === prompt).length > 2).length
}
