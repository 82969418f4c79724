// Answers a second of two worker processes on one PostgreSQL, over those of one, the same clients and the same two cores; and what
// an answer costs worker and database of processor time.
import { fork, type ChildProcess } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { flows } from '#flows/registry.ts'
import { createStep } from '#src/chart/step.ts'
import type { Content } from '#src/content/content.ts'
import type { Plan } from '#src/domain/plan.ts'
import { startPostgres } from '#tests/support/postgres-server.ts'
import { playSession } from '../answer-cost.ts'
import { atLeast, atMost, medianOf, type Figure } from '../figure.ts'
import { processorMs } from './server-time.ts'
import type { FromWorker, ToWorker } from './session-worker.ts'

/** Issue 5, "Speed and memory". */
const leastGain = 1
const clients = 48
const rounds = 5
const script = fileURLToPath(new URL('session-worker.ts', import.meta.url))

interface Worker {
  ask(message: ToWorker): Promise<FromWorker>
  end(): Promise<void>
}

interface Taken {
  readonly perSecond: number
  readonly workerMs: number
  readonly serverMs: number
}

export async function measureTwoWorkers(plan: Plan, content: Content): Promise<readonly Figure[]> {
  const answers = playSession(plan, content, createStep(content, flows)).length * clients
  const server = await startPostgres({ isDurable: true })
  const workers: Worker[] = []
  try {
    const url = await server.makeDatabase()
    for (let count = 0; count < 2; count += 1) workers.push(await openWorker(url, plan))
    const [{ data_directory: folder } = {}] = await server.run('SHOW data_directory')
    const taken: Record<1 | 2, Taken[]> = { 1: [], 2: [] }
    const take = (round: number, count: 1 | 2): Promise<Taken> => run(workers.slice(0, count), round * 2 + count, answers, String(folder))
    // The first round warms up; both by turns, so that whatever else the machine does meets them alike.
    for (let round = 0; round <= rounds; round += 1) {
      const [one, two] = [await take(round, 1), await take(round, 2)]
      if (round > 0) taken[1].push(one)
      if (round > 0) taken[2].push(two)
    }
    const median = (of: (one: Taken) => number, count: 1 | 2): number => medianOf(taken[count].map(of))
    const gains = taken[2].map(({ perSecond }, index) => perSecond / (taken[1][index]?.perSecond ?? Number.NaN))
    return [
      atLeast('answers a second of two worker processes on PostgreSQL, over one, on the same cores', medianOf(gains), leastGain),
      atMost('answers a second of one worker process', median(({ perSecond }) => perSecond, 1), null),
      atMost('answers a second of two worker processes', median(({ perSecond }) => perSecond, 2), null),
      atMost('an answer on PostgreSQL, milliseconds of processor of the worker', median(({ workerMs }) => workerMs, 2), null),
      atMost('an answer on PostgreSQL, milliseconds of processor of the database', median(({ serverMs }) => serverMs, 2), null),
    ]
  } finally {
    await Promise.all(workers.map((worker) => worker.end()))
    await server.stop()
  }
}

/** Every client's session once, the clients shared out evenly. */
async function run(workers: readonly Worker[], round: number, answers: number, folder: string): Promise<Taken> {
  const all = Array.from({ length: clients }, (_, client) => client)
  const shareOf = (index: number): readonly number[] => all.filter((client) => client % workers.length === index)
  await Promise.all(workers.map((worker, index) => worker.ask({ kind: 'prepare', round, clients: shareOf(index) })))
  const [began, serverBefore] = [performance.now(), processorMs(folder)]
  const done = await Promise.all(workers.map((worker) => worker.ask({ kind: 'go' })))
  const ms = performance.now() - began
  const workerMs = done.reduce((sum, { cpuMs }) => sum + cpuMs, 0)
  return { perSecond: (answers * 1000) / ms, workerMs: workerMs / answers, serverMs: (processorMs(folder) - serverBefore) / answers }
}

async function openWorker(url: string, plan: Plan): Promise<Worker> {
  const child = fork(script, [url, JSON.stringify(plan)], { execArgv: ['--import', 'tsx'] })
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()))
  await answerOf(child)
  return {
    ask(message) {
      const answer = answerOf(child)
      child.send(message)
      return answer
    },
    async end() {
      if (child.connected) child.send({ kind: 'end' } satisfies ToWorker)
      await ended
    },
  }
}

function answerOf(child: ChildProcess): Promise<FromWorker> {
  return new Promise((resolve, reject) => {
    const ended = (code: number | null): void => reject(new Error(`a worker ended with ${code}`))
    child.once('exit', ended)
    child.once('message', (message: FromWorker) => {
      child.off('exit', ended)
      resolve(message)
    })
  })
}
