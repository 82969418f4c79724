// A clinic before its first start: signed, and with clients who wait for a therapist. By the product's own ways in.
import { createApp, createProduct, openStore, realWait } from '#src/app.ts'
import { enrolPlan } from '#src/commands/enrol-plan.ts'
import { readInputFile } from '#src/commands/read-input-file.ts'
import { runCommand } from '#src/commands/run-command.ts'
import { readConfig } from '#src/config.ts'
import { readPlan } from '#src/content/read-plan.ts'
import type { Instant } from '#src/domain/identifier.ts'
import { contentFolder } from '#src/app.ts'
import { signature } from './signed-content.ts'
import { RecordingLog } from './recording-log.ts'

export type Environment = Readonly<Record<string, string>>

export interface Invited {
  readonly name: string
  readonly token: string
}

/** `plan` is the name of a file in `content/plans`. */
export interface ClientToEnrol {
  readonly name: string
  readonly plan: string
}

export async function prepareClinic(environment: Environment, clients: readonly ClientToEnrol[], now: Instant): Promise<readonly Invited[]> {
  await sign(environment)
  const config = readConfig(environment)
  const product = createProduct({ dataDir: config.dataDir })
  const store = openStore(config)
  await store.open()
  const { delivery } = createApp({ product, store, channels: null, clock: { now: () => now }, log: new RecordingLog(), wait: realWait })
  const invited: Invited[] = []
  try {
    for (const { name, plan: file } of clients) {
      const path = `${contentFolder}/plans/${file}.yaml`
      const plan = readPlan(readInputFile(path), path, product.content)
      const { token } = await enrolPlan({ ...plan, client: { ...plan.client, name } }, store, delivery, now)
      invited.push({ name, token })
    }
    await delivery.idle()
  } finally {
    await delivery.stop()
    await store.close()
  }
  return invited
}

async function sign(environment: Environment): Promise<void> {
  const args = ['sign', '--name', signature.name, '--registration', signature.registration, '--i-have-reviewed-it', signature.version]
  const complaints: string[] = []
  const status = await runCommand(args, { environment, print: () => undefined, complain: (line) => void complaints.push(line), terminal: null })
  if (status !== 0) throw new Error(`the content could not be signed: ${complaints.join(' ')}`)
}
