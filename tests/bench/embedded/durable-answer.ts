// What one durable answer costs on the whole way, over an echo that writes one file of the same content.
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Product } from '#src/handler.ts'
import { plain } from '#src/stores/cipher.ts'
import { envelopeFormat } from '#src/stores/envelope.ts'
import { unsealText } from '#src/stores/lowdb/sealed-text.ts'
import { pressUpdate } from '#tests/support/telegram-updates.ts'
import { atLeast, atMost, medianOf, type Figure } from '../figure.ts'
import { openAnsweringClinic, type AnsweringClinic } from './answering-clinic.ts'
import { documentPath, makeFolder, placeClients, removeFolder } from './clinic-folder.ts'
import { createEcho, type Echo } from './echo.ts'
import { chartOf, chatOf, untilReadyAfter } from './history.ts'
import type { PastClient, Pasts } from './past-client.ts'

/** Issue 5, "Speed and memory". */
const limits = { echo: 1.3, clinic: 1.2, late: 1.1 }
const yearWeeks = 52
/** Played for somebody who has only agreed: so long that the step is as warm as in a process that runs for days. */
const fewWeeks = 12
const fewClients = 10
const manyClients = 5000
/** More than there are rounds, so that every answer is read from its file first. */
const strangers = 400
/** Ten clients' first sessions have some forty answers each: none may be over before the end. */
const warmUpRounds = 60
const rounds = 280

/** As warm as a process that runs for days, the echo as well. */
const echoWarmUpRounds = 1400
const echoRounds = 500
const echoClients = 60

export interface AnswerParts {
  readonly product: Product
  readonly pasts: Pasts
}

interface Measured {
  readonly clinic: AnsweringClinic
  readonly folder: string
  readonly clients: readonly number[]
}

const numbersTo = (count: number): readonly number[] => Array.from({ length: count }, (_, index) => index + 1)

async function openWith(product: Product, past: PastClient, count: number, clients: readonly number[]): Promise<Measured> {
  const folder = makeFolder()
  placeClients(folder, past, numbersTo(count))
  return { clinic: await openAnsweringClinic(product, folder, past.until + 60_000), folder, clients }
}

async function close({ clinic, folder }: Measured): Promise<void> {
  await clinic.close()
  removeFolder(folder)
}

interface Answered {
  readonly ms: number
  /** Documents made durable for it. */
  readonly writes: number
}

/** One answer of the next client in turn. */
async function answerOnce({ clinic, clients }: Measured, round: number): Promise<Answered> {
  const client = clients[round % clients.length] ?? 1
  const update = await clinic.nextAnswer(client)
  const before = clinic.written.documents
  const start = performance.now()
  await clinic.take(update)
  const ms = performance.now() - start
  if (clinic.written.documents === before) throw new Error('an answer stored nothing')
  return { ms, writes: clinic.written.documents - before }
}

/** One client's conversation beside the echo, by turns, so that whatever else the machine does meets both alike. */
export async function measureDurableAnswer({ product, pasts }: AnswerParts): Promise<readonly Figure[]> {
  const measured = await openWith(product, await pasts(fewWeeks, untilReadyAfter(0)), echoClients, numbersTo(echoClients))
  const echo = createEcho(join(measured.folder, 'shared', 'echo.json'))
  const [ours, echoes]: [number[], number[]] = [[], []]
  const writes: number[] = []
  for (let round = 0; round < echoWarmUpRounds + echoRounds; round += 1) {
    // Whoever comes second may find the disk busier, so that they take turns at coming first.
    const isEchoFirst = round % 2 === 1
    if (isEchoFirst) echoes.push(await echoOnce(echo, measured, round))
    const { ms, writes: written } = await answerOnce(measured, round)
    if (!isEchoFirst) echoes.push(await echoOnce(echo, measured, round))
    ours.push(ms)
    writes.push(written)
  }
  await close(measured)
  return [
    atMost('a durable answer, in grammY echoes with one write of the same: median', settled(ours) / settled(echoes), limits.echo),
    atMost('a durable answer, milliseconds: median', settled(ours), null),
    atMost('a grammY echo with one write of the same, milliseconds: median', settled(echoes), null),
    atMost('durable writes of an answer: the most', Math.max(...writes), 1),
    atLeast('durable writes of an answer: the fewest', Math.min(...writes), 1),
  ]
}

/** The medians of what came after the warm-up. */
function settled(times: readonly number[]): number {
  return medianOf(times.slice(echoWarmUpRounds))
}

/** The same press, and the document of the client whose turn it is, as it stands. */
async function echoOnce(echo: Echo, { folder, clients }: Measured, round: number): Promise<number> {
  const client = clients[round % clients.length] ?? 1
  const value = readEnvelope(documentPath(folder, chartOf(client)))
  const update = pressUpdate(round, chatOf(client), 'p:1:done')
  const start = performance.now()
  await echo.take(update, value)
  return performance.now() - start
}

function readEnvelope(path: string): object {
  const unsealed = unsealText(readFileSync(path, 'utf8'), envelopeFormat, plain, 'bench')
  if (unsealed.kind !== 'good') throw new Error('a document is damaged')
  return unsealed.value as object
}

/** Answers of both by turns: the median of what one takes in parts of what the other takes. */
async function compare(a: Measured, b: Measured, count: number): Promise<{ readonly ratio: number; readonly ms: readonly [number, number] }> {
  const [first, second]: [number[], number[]] = [[], []]
  for (let round = 0; round < warmUpRounds + count; round += 1) {
    const [one, other] = [await answerOnce(a, round), await answerOnce(b, round)]
    if (round < warmUpRounds) continue
    first.push(one.ms)
    second.push(other.ms)
  }
  return { ratio: medianOf(first) / medianOf(second), ms: [medianOf(first), medianOf(second)] }
}

export async function measureLargeClinic({ product, pasts }: AnswerParts): Promise<readonly Figure[]> {
  const openFew = async (): Promise<Measured> => openWith(product, await pasts(fewWeeks, untilReadyAfter(0)), fewClients, numbersTo(fewClients))
  const year = await pasts(yearWeeks, untilReadyAfter(Infinity))
  const many = await openWith(product, year, manyClients, numbersTo(fewClients))
  const [few, others] = [await openFew(), await openFew()]
  const same = await compare(many, few, rounds)
  const away = await compare({ ...many, clients: numbersTo(fewClients + strangers).slice(fewClients) }, others, rounds)
  for (const measured of [many, few, others]) await close(measured)
  return [
    atMost(`a durable answer among ${manyClients} clients with a year behind them, in those among ${fewClients} new ones`, same.ratio, limits.clinic),
    atMost(`the same, every answer by another of ${strangers} clients`, away.ratio, null),
    atMost('a durable answer among many, milliseconds: median', same.ms[0], null),
  ]
}

export async function measureLateAnswers({ product, pasts }: AnswerParts): Promise<readonly Figure[]> {
  const young = await openWith(product, await pasts(fewWeeks, untilReadyAfter(0)), fewClients, numbersTo(fewClients))
  const old = await openWith(product, await pasts(yearWeeks, untilReadyAfter(780)), fewClients, numbersTo(fewClients))
  const { ratio } = await compare(old, young, rounds)
  await close(old)
  await close(young)
  return [atMost('answer 800 of a conversation, in answers 10', ratio, limits.late)]
}
