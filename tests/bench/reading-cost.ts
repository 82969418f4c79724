// What it costs to read one message, in both languages.
import { readFileSync } from 'node:fs'
import { parse } from 'yaml'
import type { Content } from '#src/content/content.ts'
import type { Lexicon } from '#src/content/lexicon.ts'
import { readMessage, type Awaiting } from '#src/conversation/reading/read-message.ts'
import { atMost, medianOf, type Figure } from './figure.ts'

/** Issue 4, "Speed". */
const mostMicroseconds = 100
const mostForLongest = 5000
const longestMessage = 4096
/** Our choice: twice the text may cost a little more than twice the time, and work that grows faster would pass this at once. */
const mostGrowth = 1.3
const warmUpRounds = 30
const rounds = 40

interface Message {
  readonly text: string
  readonly awaiting: Awaiting
}

export function measureReading(content: Content): readonly Figure[] {
  return [...content.languages.values()].flatMap(({ lexicon }) => measureLanguage(lexicon))
}

function measureLanguage(lexicon: Lexicon): readonly Figure[] {
  const { language } = lexicon
  const messages = parse(readFileSync(`tests/conversation/reading/labelled/${language}.tuned.yaml`, 'utf8')) as readonly Message[]
  const long = longTexts(messages)
  const times = messages.map(() => [] as number[])
  const read = ({ text, awaiting }: Message): number => timeOf(() => readMessage(text, awaiting, lexicon))
  for (let round = 0; round < warmUpRounds; round += 1) for (const message of messages) read(message)
  for (let round = 0; round < rounds; round += 1) messages.forEach((message, index) => times[index]?.push(read(message)))
  const longTimes = long.map((text) => medianOf(Array.from({ length: 15 }, () => read({ text, awaiting: 'pain' }))))
  return [
    atMost(`reading a message (${language}), microseconds: median`, medianOf(times.map(medianOf)), mostMicroseconds),
    atMost(`reading a message (${language}), microseconds: the costliest of ${messages.length}`, Math.max(...times.map(medianOf)), null),
    atMost(`reading ${longestMessage} characters (${language}), microseconds: the costliest of ${long.length}`, Math.max(...longTimes), mostForLongest),
    atMost(`reading twice the text (${language}), in twice the time`, growthOf(long[0] ?? '', lexicon), mostGrowth),
  ]
}

/** All messages in one, the words of each over and over, and no words at all. */
function longTexts(messages: readonly Message[]): readonly string[] {
  const fill = (text: string): string => text.repeat(Math.ceil(longestMessage / text.length)).slice(0, longestMessage)
  const all = fill(messages.map(({ text }) => text).join('. '))
  const worst = messages.filter((_message, index) => index % 10 === 0).map(({ text }) => fill(`${text} `))
  return [all, ...worst, fill('no '), fill('a'), fill('1 '), fill(',')]
}

function growthOf(text: string, lexicon: Lexicon): number {
  const cost = (length: number): number => medianOf(Array.from({ length: 25 }, () => timeOf(() => readMessage(text.slice(0, length), 'pain', lexicon))))
  return cost(longestMessage) / cost(longestMessage / 2) / 2
}

function timeOf(work: () => unknown): number {
  const start = process.hrtime.bigint()
  work()
  return Number(process.hrtime.bigint() - start) / 1000
}
