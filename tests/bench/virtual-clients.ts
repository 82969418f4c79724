// Invented clients by the hundred: memory stays flat, since they are streamed, and time grows as their number does.
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { flows } from '#flows/registry.ts'
import { createStep } from '#src/chart/step.ts'
import { clientKinds } from '#src/commands/rehearse/client-kinds.ts'
import { inventClients, type Invented } from '#src/commands/rehearse/invent-clients.ts'
import { rehearseInvented } from '#src/commands/rehearse/rehearse-plan.ts'
import type { Content } from '#src/content/content.ts'
import type { Plan } from '#src/domain/plan.ts'
import { atMost, medianOf, type Figure } from './figure.ts'

const weeks = 12
/** Kinds come by turns: a round of all of them is the same work as any other. */
const round = clientKinds.length
/** Rounds that are measured, spread over all of them. */
const samples = 20
/** Our choice: work that grows with the clients before, or one chart kept of each, would pass these at once. */
const mostMemoryGrowth = 1.1
const mostTimeGrowth = 1.25

interface Sample {
  readonly heap: number
  /** Of a round after all those before, in rounds of a stream that has just begun: what else the machine does meets both. */
  readonly rounds: number
  readonly microseconds: number
}

export function measureClients(plan: Plan, content: Content, count: number): readonly Figure[] {
  const step = createStep(content, flows)
  const rounds = Math.max(samples, Math.ceil(count / round))
  const every = Math.floor(rounds / samples)
  const invent = (clients: number): Iterator<Invented> => inventClients(plan, content, { count: clients, seed: 1, weeks, kind: null })
  const playRound = (stream: Iterator<Invented>): number => {
    const started = process.cpuUsage()
    for (let client = 0; client < round; client += 1) {
      const { value, done } = stream.next()
      if (done === true) throw new RangeError('fewer clients than asked for')
      JSON.stringify({ client: value.client, ...rehearseInvented(plan, value.attendances, step, content) })
    }
    const { user, system } = process.cpuUsage(started)
    return user + system
  }
  const stream = invent(rounds * round)
  const measured: Sample[] = []
  for (let played = 1; played <= rounds; played += 1) {
    const microseconds = playRound(stream)
    if (played % every === 0) measured.push({ heap: heapNow(), rounds: microseconds / playRound(invent(round)), microseconds })
  }
  const clients = rounds * round
  return [
    atMost(`memory of ${clients} virtual clients: the later half in parts of the earlier`, growth(measured.map(({ heap }) => heap)), mostMemoryGrowth),
    atMost(`time of a virtual client among ${clients}: the later half in parts of the earlier`, growth(measured.map((one) => one.rounds)), mostTimeGrowth),
    atMost(`milliseconds for a virtual client of ${weeks} weeks`, medianOf(measured.map(({ microseconds }) => microseconds)) / round / 1000, null),
  ]
}

/** The first samples still warm up. */
function growth(values: readonly number[]): number {
  const settled = values.slice(Math.floor(values.length / 5))
  const middle = Math.floor(settled.length / 2)
  return medianOf(settled.slice(middle)) / medianOf(settled.slice(0, middle))
}

setFlagsFromString('--expose-gc')
const collectGarbage = runInNewContext('gc') as () => void

/** In use, once nothing is left to collect. */
function heapNow(): number {
  collectGarbage()
  return process.memoryUsage().heapUsed
}
