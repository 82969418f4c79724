// What whoever runs it would see at one moment: /healthz, `status`, and the log so far.
import type { AnyDocument } from '#src/chart/head.ts'
import { createWatch } from '#src/commands/start/watch/watch.ts'
import { findStatus } from '#src/commands/status/find-status.ts'
import { printStatus } from '#src/commands/status/print-status.ts'
import type { RunningState } from '#src/commands/status/running-state.ts'
import type { Instant } from '#src/domain/identifier.ts'
import { product, type TelegramClinic } from '#tests/support/telegram-clinic.ts'

export interface Sight {
  readonly at: Instant
  readonly health: string
  readonly status: string
  readonly needsPerson: boolean
  /** Lines of the log so far, counted by their event. */
  readonly logged: ReadonlyMap<string, number>
}

export async function lookAt(clinic: TelegramClinic): Promise<Sight> {
  const { clock, log } = clinic
  const status = await findStatusOf(clinic)
  const logged = new Map<string, number>()
  for (const event of log.events()) logged.set(event, (logged.get(event) ?? 0) + 1)
  return { at: clock.now(), health: await askHealth(clinic), status: printStatus(status), needsPerson: status.needsPerson, logged }
}

function heardOf({ hearing }: TelegramClinic): RunningState['heard'] {
  return [{ channel: 'telegram', at: hearing?.at() ?? null }]
}

async function askHealth(clinic: TelegramClinic): Promise<string> {
  const { app, clock, store } = clinic
  const parts = { clock, machineClock: clock, wait: clock.wait, nowMs: () => clock.now(), host: '127.0.0.1', secret: null }
  const watch = createWatch({ ...parts, store, heard: () => heardOf(clinic) })
  watch.began(app.delivery)
  const route = watch.routes.find(({ path }) => path === '/healthz')!
  const { status, body } = await route.answer('')
  return `${status} ${body.trim()}`
}

async function findStatusOf(clinic: TelegramClinic): Promise<ReturnType<typeof findStatus>> {
  const { app, clock, store } = clinic
  const heads = await store.heads()
  const read = async (head: (typeof heads)[number]) => {
    const owed = await store.owed(head.id)
    return { head, document: (await store.read<AnyDocument>(head.id))!, owed: owed.map(({ effect }) => ({ effect, attempts: 0 })) }
  }
  const documents = await Promise.all(heads.map(read))
  const at = clock.now()
  const running: RunningState = { format: 1, at, isStopped: false, waiting: [...app.delivery.waiting()], heard: heardOf(clinic) }
  return findStatus({ documents, running, escalation: product.content.triage.escalation, at, machineAt: at })
}
