// The default: a demo clinic in the browser on this machine, on the embedded store.
import { createApp, createProduct, openStore, realWait, systemClock } from '#src/app.ts'
import type { Chart } from '#src/chart/chart.ts'
import { clinicId, type Clinic } from '#src/chart/clinic.ts'
import type { Desk } from '#src/chart/desk.ts'
import { createBrowserChannel } from '#src/channels/browser/browser-channel.ts'
import type { ClockControl } from '#src/channels/browser/clock-control.ts'
import type { People } from '#src/channels/browser/people.ts'
import { ConfigError, type Config } from '#src/config.ts'
import type { Contact } from '#src/domain/message.ts'
import type { Log } from '#src/ports/log.ts'
import type { Store } from '#src/ports/store.ts'
import { cipherFor } from '#src/stores/cipher.ts'
import { keepSideFile, readSideFile } from '#src/stores/lowdb/side-file.ts'
import { keepRunningState } from '../status/running-state.ts'
import { seedDemoClinic } from './demo-clinic.ts'
import { DemoClock } from './demo-clock.ts'
import { createDemoClockControl } from './demo-clock-control.ts'
import type { Started } from './started.ts'
import { createWatch } from './watch/watch.ts'

export async function startDemo(config: Config, log: Log, failed: (error: Error) => void): Promise<Started> {
  if (config.databaseUrl !== null) throw new ConfigError(['DATABASE_URL goes with a network: the demo clinic is kept in DATA_DIR. Set TELEGRAM_BOT_TOKEN, or leave DATABASE_URL empty'])
  const product = createProduct('demo', config.clinicLanguage)
  const opened = openStore(config)
  await opened.open()
  const clock = new DemoClock(config.dataDir)
  const cipher = cipherFor(config.dataKey)
  const watch = createWatch({
    store: opened,
    clock,
    machineClock: systemClock,
    wait: realWait,
    nowMs: () => performance.now(),
    heard: () => [],
    host: config.host,
    secret: config.accessSecret,
  })
  const { store } = watch
  // The clock control needs the app, and the app the channel that shows the control.
  const late: { control: ClockControl | null } = { control: null }
  const channel = createBrowserChannel({
    host: config.host,
    port: config.port,
    secret: config.accessSecret,
    panes: () => findPeople(store),
    clockControl: { now: () => controlOf(late).now(), choices: () => controlOf(late).choices(), move: (id) => controlOf(late).move(id) },
    log,
    routes: watch.routes,
    loadHistory: () => readSideFile(config.dataDir, 'demo-chat.json', cipher),
    saveHistory: (value) => keepSideFile(config.dataDir, 'demo-chat.json', value, cipher),
  })
  const app = createApp({ product, store, channels: [watch.meter(channel)], clock, log, onParked: watch.noteParked })
  late.control = createDemoClockControl({ app, store, clock })
  try {
    await app.start(failed)
    await seedDemoClinic(app, store, product, clock)
    watch.began(app.delivery)
  } catch (error) {
    await app.stop().catch(() => undefined)
    await store.close()
    throw error
  }
  const state = keepRunningState({ folder: config.dataDir, delivery: app.delivery, clock: systemClock, wait: realWait, log, heard: () => [] })
  return {
    lines: [`Nuchal's demo clinic is open at ${channel.address()}`, 'Invented people only. Nuchal is no emergency service. Stop it with Ctrl+C.'],
    async stop() {
      watch.stopping()
      await app.stop()
      await store.close()
      // Behind the store, which writes only now what has gone out.
      await state.stop()
    },
  }
}

function controlOf(late: { readonly control: ClockControl | null }): ClockControl {
  if (late.control === null) throw new Error('the clock is asked before the clinic is open')
  return late.control
}

async function findPeople(store: Store): Promise<People> {
  const address = (contact: Contact | null): string[] => (contact?.channel === 'browser' ? [contact.address] : [])
  const read = async <D extends Chart | Desk>(kind: D['kind']): Promise<readonly D[]> => {
    const documents = await Promise.all((await store.heads(kind)).map((head) => store.read<D>(head.id)))
    return documents.filter((document) => document !== null)
  }
  const [charts, desks, clinic] = await Promise.all([read<Chart>('chart'), read<Desk>('desk'), store.read<Clinic>(clinicId)])
  // In the order in which they joined; the first one's chat is shown first.
  const rank = (desk: Desk): number => (clinic?.therapists ?? []).findIndex((card) => card.desk === desk.id)
  return {
    clients: charts.flatMap((chart) => address(chart.contact).map((one) => ({ address: one, name: chart.plan?.client.name ?? null }))),
    therapists: desks.toSorted((a, b) => rank(a) - rank(b)).flatMap((desk) => address(desk.contact).map((one) => ({ address: one, name: desk.name || null }))),
  }
}
