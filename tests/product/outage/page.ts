// The page about the hour without the network, as it was played.
import type { Instant } from '#src/domain/identifier.ts'
import { breaksAt, returnsAt, settledAt, type Evening } from './hour.ts'
import { idris, maren, nameOf, trainees } from './people.ts'
import type { Act, Received } from './play.ts'
import type { Sight } from './operator.ts'

const pressLivesMs = 150_000

export function writePage(evening: Evening): string {
  const flagged = trainees.filter(({ name }) => ['Petra Halloway', 'Lior Abendroth'].includes(name)).map(({ chat }) => chat)
  return `${[
    '# An hour without the network',
    introduction,
    '## Everybody in a line',
    everybody(evening),
    '## The two signs of harm, message by message',
    signsWords,
    storyOf(evening, [...flagged, maren, idris]),
    '## What went out when the line was back',
    afterwards(evening),
    '## What whoever runs it sees',
    operatorWords,
    sightsOf(evening),
    'The log, counted so far. No line holds a name, a text or an address.',
    logOf(evening),
    `\`status\` at ${clock(breaksAt + 30 * 60_000)}, and at ${clock(settledAt)} (ids of clients written as their names here):`,
    ...[breaksAt + 30 * 60_000, settledAt].map((at) => `\`\`\`text\n${nameIds(evening, evening.sights.find((sight) => sight.at === at)!.status)}\n\`\`\``),
  ].join('\n\n')}\n`
}

const introduction = `An evening in an invented clinic. Ten clients begin at 18:00, an eleventh at 18:45. At 18:10 the line to the network breaks: nothing gets
out, and nothing comes in. At 19:10 it is back. This page is written by the test that plays it
(\`tests/product/telegram-outage.test.ts\`), with the real content and store, on a clock that is moved by hand.

While the line is down the network keeps what people write for a day, and what they press for 150 seconds. So a press may be lost,
and nobody tells the client; a written answer is not.

**Nobody can be warned over a line that is down.** Who has written that something is wrong reads no answer for an hour, and no therapist
hears of it over this network. The consent text tells each client which number to call and that nobody may be reading. Whoever
runs the clinic sees it after five minutes (below) and should then see to it that somebody phones.`

const signsWords = `Petra Halloway wrote with the last that came through, so her sign is read at once; both the answer to her and the alert wait for the
line. After a minute the second contact is asked, and then the client is told that nobody can be reached: over the same line, so that
all of it arrives together. The alert says what the client *was told*, and the line after it that this may not have arrived.

Lior Abendroth wrote while the line was down. The alert gives the time at which that was read, 19:10, and does not say that it was
written at 18:30: ask the client since when.`

const operatorWords = `\`/healthz\` turns to 503 when the network has not been heard for five minutes; \`status\` asks for a person as soon as an alert has waited
for a minute. The log has a line for each call that fails. Polls are tried each half minute in the end, alerts each minute, other
messages each five minutes, so that an hour is a few hundred lines and not thousands.`

function everybody({ play }: Evening): string {
  const rows = trainees.map(({ chat, name }) => {
    const messages = play.receivedBy(chat)
    const open = messages.findLast(({ at }) => at < breaksAt)
    const acts = play.acts.filter((act) => act.chat === chat && isInHour(act))
    const came = messages.filter(({ at }) => at >= returnsAt && at < settledAt)
    const did = acts.map((act) => `${clock(act.at)} ${sayAct(act)}: ${fateOf(play, act)}`).join('; ')
    return row(name, asked(open), did === '' ? 'nothing' : did, came.map((one) => heading(one.text)).join('; then ') || 'nothing')
  })
  return [row('client', 'open when the line broke', 'did in the hour, and what became of it', 'got when it was back'), '| --- | --- | --- | --- |', ...rows].join('\n')
}

/** What these people did and got from the break on, the clients' and the first alerts in full. */
function storyOf({ play }: Evening, chats: readonly number[]): string {
  const acts = play.acts.filter((act) => chats.includes(act.chat) && isInHour(act)).map((act) => ({ at: act.at, chat: act.chat, text: `**${nameOf(act.chat)}** ${sayAct(act)}: ${fateOf(play, act)}.` }))
  const seen = new Set<string>()
  const messages = inOrder(play.received().filter(({ at, chat }) => chats.includes(chat) && at >= breaksAt && at < settledAt))
  const told = messages.map(({ at, chat, text, labels }) => {
    const isNew = !seen.has(`${chat} ${text}`)
    seen.add(`${chat} ${text}`)
    return { at, chat, text: isNew ? `**To ${nameOf(chat)}:**\n${quoted(text, labels)}` : `**To ${nameOf(chat)}**, once more: ${heading(text)}` }
  })
  return [...acts, ...told].map(({ at, text }) => `${clock(at)} ${text}`).join('\n\n')
}

function afterwards({ play }: Evening): string {
  const rows = play.received().filter(({ at }) => at >= returnsAt && at < settledAt)
  return inOrder(rows).map(({ at, chat, text }) => `- ${clock(at)} to ${nameOf(chat)}: ${heading(text)}`).join('\n')
}

function sightsOf({ sights }: Evening): string {
  const rows = sights.map(({ at, health, needsPerson }) => row(clock(at), `\`${health}\``, needsPerson ? 'something needs a person' : 'nothing is overdue'))
  return [row('at', '`/healthz`', '`status`'), '| --- | --- | --- |', ...rows].join('\n')
}

function logOf({ sights }: Evening): string {
  const events = [...(sights.at(-1)?.logged.keys() ?? [])]
  const rows = events.map((event) => row(`\`${event}\``, ...sights.map(({ logged }: Sight) => String(logged.get(event) ?? 0))))
  return [row('event', ...sights.map(({ at }) => clock(at))), `| --- |${sights.map(() => ' --- |').join('')}`, ...rows].join('\n')
}

function nameIds({ ids }: Evening, text: string): string {
  return [...ids].reduce((named, [id, name]) => named.replaceAll(id, name), text)
}

/**
 * At one second the therapists first, then the clients by their chats: charts have ids made up anew for each play. What the second
 * contact is sent falls due at one instant, so that either may come first.
 */
function inOrder<T extends { readonly at: Instant; readonly chat: number; readonly text: string }>(lines: readonly T[]): readonly T[] {
  const seconds = (at: Instant): number => Math.floor(at / 1000)
  const rank = ({ chat }: T): number => (chat >= maren ? chat - 2 * maren : chat)
  return lines.toSorted((a, b) => seconds(a.at) - seconds(b.at) || rank(a) - rank(b) || (a.chat === idris ? Number(a.text > b.text) - Number(a.text < b.text) : 0))
}

function isInHour({ at }: Act): boolean {
  return at >= breaksAt && at < returnsAt
}

function fateOf({ clinic }: Evening['play'], { at, answer, update }: Act): string {
  if (clinic.api.forgotten.some(({ update_id: id }) => id === update)) return `lost, the network kept it until ${clock(at + pressLivesMs)}`
  return at === breaksAt ? 'stored; it came through as the line broke' : `kept by the network and stored when the line was back${'write' in answer ? '' : ', since the press was younger than 150 s'}`
}

function sayAct({ answer }: Act): string {
  return 'write' in answer ? `writes “${answer.write}”` : `presses *${answer.press}*`
}

function asked(message: Received | undefined): string {
  return message === undefined ? 'nothing' : heading(message.text.split('\n\n').at(-1) ?? '')
}

const noticeBegins = 'I was away for a while.'

/** The line by which a message is known. */
function heading(text: string): string {
  const lines = text.split('\n').filter((line) => line !== '')
  const isAgain = text.startsWith(noticeBegins)
  const line = lines.find((one) => /^Set \d/.test(one)) ?? lines[isAgain ? 1 : 0] ?? ''
  const short = line.split(/(?<=[.?!:]) /)[0] ?? line
  return isAgain ? `“${noticeBegins} …” and again: “${short}”` : `“${short}”`
}

function quoted(text: string, labels: readonly string[]): string {
  const buttons = labels.length === 0 ? [] : [labels.map((label) => `[${label}]`).join(' ')]
  return [...text.split('\n'), ...buttons].map((line) => `> ${line}`.trimEnd()).join('  \n')
}

function row(...cells: readonly string[]): string {
  return `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`
}

/** In Dublin, in summer. */
function clock(at: Instant): string {
  return new Date(at + 3_600_000).toISOString().slice(11, 19)
}
