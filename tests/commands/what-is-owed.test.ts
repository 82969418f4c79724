// Commands that only change documents run without any network: what was owed before them is owed after them.
import { beforeEach, describe, expect, it } from 'vitest'
import { createApp, createProduct, systemClock } from '#src/app.ts'
import { clinicId } from '#src/chart/clinic.ts'
import type { Desk } from '#src/chart/desk.ts'
import type { Shown } from '#src/chart/event.ts'
import { brandAs, type EventId } from '#src/domain/identifier.ts'
import type { Store } from '#src/ports/store.ts'
import { inFolder } from '#tests/support/in-folder.ts'
import { chartId, colleagues } from '#tests/support/joined-clinic.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { runHere } from './run-here.ts'

const { desk, ...card } = colleagues.maren
const plan = 'content/plans/extension.yaml'
const alert: Shown = { text: 'URGENT – Noor Lindqvist', buttons: [], urgency: 'alert', alert: { chart: chartId, id: 'a1' as never } }
const notice: Shown = { text: 'Message from Noor Lindqvist', buttons: [], urgency: 'reply', alert: null }
let folder = ''

const inStore = <T>(work: (store: Store) => Promise<T>): Promise<T> => inFolder(folder, work)

/** As after a kill: told to the desk, and not sent. */
beforeEach(async () => {
  folder = await makeTemporaryFolder()
  await inStore(async (store) => {
    const { delivery } = createApp({ product: createProduct('demo'), store, channels: null, clock: systemClock, log: new RecordingLog() })
    await delivery.start()
    const opened = { kind: 'opened', contact: { channel: 'net', address: 'maren' }, card } as const
    for (const [index, told] of [opened, { kind: 'show', shown: alert } as const, { kind: 'show', shown: notice } as const].entries()) {
      await delivery.submit(desk, { id: brandAs<EventId>(`told-${index}`), kind: 'told', from: clinicId, told })
    }
    await delivery.stop()
  })
})

async function owed(): Promise<{ readonly texts: readonly string[]; readonly isReachable: boolean | undefined }> {
  return inStore(async (store) => {
    const texts = (await store.owed(desk)).flatMap(({ effect }) => (effect.kind === 'send' ? [effect.message.text] : []))
    return { texts, isReachable: (await store.read<Desk>(desk))?.isReachable }
  })
}

describe('what is owed to a therapist', () => {
  it('is kept until it has gone out, a mere notice as well as an alert', async () => {
    expect((await owed()).texts.slice(1)).toEqual([alert.text, notice.text])
  })

  it.each([
    ['an enrolment', [['enrol', plan]]],
    ['another plan', [['enrol', plan], ['enrol', plan, '--instead-of', 'Orla Tiernan', '--because', 'seen']]],
  ] as const)('is owed after %s as before, and nobody counts as out of reach', async (_what, commands) => {
    const before = await owed()
    for (const args of commands) expect((await runHere(args, { DATA_DIR: folder, LOG_LEVEL: 'error' })).status).toBe(0)
    const after = await owed()
    expect(after.texts.slice(0, before.texts.length)).toEqual(before.texts)
    expect([before.isReachable, after.isReachable]).toEqual([true, true])
  })
})
