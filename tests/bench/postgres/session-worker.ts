// A worker process of the bench: lets its share of the clients answer, all at once, and says what that took.
import { flows } from '#flows/registry.ts'
import { createStep } from '#src/chart/step.ts'
import { loadContent } from '#src/content/load-content.ts'
import type { Plan } from '#src/domain/plan.ts'
import { playSession } from '../answer-cost.ts'
import { answerAll, enrol, idOf, openSessionStore } from './client-sessions.ts'

/** `clients`: their numbers. */
export interface Share {
  readonly round: number
  readonly clients: readonly number[]
}

export type ToWorker = ({ readonly kind: 'prepare' } & Share) | { readonly kind: 'go' } | { readonly kind: 'end' }
export interface FromWorker {
  readonly kind: 'ready' | 'done'
  /** Processor time of this process since it was told to go. */
  readonly cpuMs: number
}

const [url = '', planText = ''] = process.argv.slice(2)
const content = { ...loadContent('content'), signature: { kind: 'demo' } as const }
const step = createStep(content, flows)
const presses = playSession(JSON.parse(planText) as Plan, content, step)
const store = openSessionStore(url, presses)
await store.open()
let share: Share = { round: 0, clients: [] }

async function take(message: ToWorker): Promise<void> {
  if (message.kind === 'end') {
    await store.close()
    return process.disconnect()
  }
  if (message.kind === 'prepare') {
    share = message
    for (const client of share.clients) await enrol(store, presses, idOf(share.round, client))
    return tell('ready', 0)
  }
  const before = process.cpuUsage()
  await Promise.all(share.clients.map((client) => answerAll(store, step, presses, idOf(share.round, client))))
  const { user, system } = process.cpuUsage(before)
  tell('done', (user + system) / 1000)
}

function tell(kind: FromWorker['kind'], cpuMs: number): void {
  process.send?.({ kind, cpuMs } satisfies FromWorker)
}

process.on('message', (message: ToWorker) => void take(message))
tell('ready', 0)
