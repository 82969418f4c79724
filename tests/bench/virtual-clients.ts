// Invented clients by the hundred: memory stays flat, since they are streamed, and time grows as their number does.
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { flows } from '#flows/registry.ts'
import { createStep } from '#src/chart/step.ts'
import { clientKinds } from '#src/commands/rehearse/client-kinds.ts'
import { inventClients } from '#src/commands/rehearse/invent-clients.ts'
import { rehearseInvented } from '#src/commands/rehearse/rehearse-plan.ts'
import type { Content } from '#src/content/content.ts'
import type { Plan } from '#src/domain/plan.ts'
import { atMost, medianOf, type Figure } from './figure.ts'

const weeks = 12
/** Kinds come by turns: a round of all of them is the same work as any other. */
const round = clientKinds.length
/** Our choice: a leak of one chart a client, or work that grows with those before, would pass these at once. */
const mostMemoryGrowth = 1.1
const mostTimeGrowth = 1.25

export function measureClients(plan: Plan, content: Content, count: number): readonly Figure[] {
  const step = createStep(content, flows)
  const rounds = Math.ceil(count / round)
  const times: number[] = []
  const heaps: number[] = []
  let started = process.cpuUsage()
  for (const { client, attendances } of inventClients(plan, content, { count: rounds * round, seed: 1, weeks, kind: null })) {
    JSON.stringify({ client, ...rehearseInvented(plan, attendances, step, content) })
    if (client.number % round !== 0) continue
    const { user, system } = process.cpuUsage(started)
    times.push(user + system)
    heaps.push(heapNow())
    started = process.cpuUsage()
  }
  const grown = (values: readonly number[]): number => medianOf(lastThird(values)) / medianOf(values.slice(values.length - 2 * third(values), -third(values)))
  return [
    atMost(`memory of ${rounds * round} virtual clients: the last third against the third before`, grown(heaps), mostMemoryGrowth),
    atMost(`time of a virtual client among ${rounds * round}: the last third against the third before`, grown(times), mostTimeGrowth),
    atMost(`milliseconds for a virtual client of ${weeks} weeks`, medianOf(times) / round / 1000, null),
  ]
}

function third(values: readonly number[]): number {
  return Math.floor(values.length / 3)
}

function lastThird(values: readonly number[]): readonly number[] {
  return values.slice(-third(values))
}

setFlagsFromString('--expose-gc')
const collectGarbage = runInNewContext('gc') as () => void

/** In use, once nothing is left to collect. */
function heapNow(): number {
  collectGarbage()
  return process.memoryUsage().heapUsed
}
