import { beforeEach, describe, expect, it } from 'vitest'
import { createApp, createProduct, systemClock } from '#src/app.ts'
import type { Chart } from '#src/chart/chart.ts'
import { clinicId } from '#src/chart/clinic.ts'
import type { Desk } from '#src/chart/desk.ts'
import type { Event } from '#src/chart/event.ts'
import { brandAs, type DocumentId, type EventId } from '#src/domain/identifier.ts'
import type { Store } from '#src/ports/store.ts'
import { inFolder } from '#tests/support/in-folder.ts'
import { chartId, colleagues } from '#tests/support/joined-clinic.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { runHere } from './run-here.ts'

type Name = keyof typeof colleagues
type Happening = Event extends infer E ? (E extends Event ? Omit<E, 'id'> : never) : never

const noor = brandAs<DocumentId>('chart-00000000c12e')
let folder = ''

const inStore = <T>(work: (store: Store) => Promise<T>): Promise<T> => inFolder(folder, work)

async function submit(...happenings: readonly (readonly [DocumentId, Happening])[]): Promise<void> {
  await inStore(async (store) => {
    const { delivery } = createApp({ product: createProduct('demo'), store, channels: null, clock: systemClock, log: new RecordingLog() })
    await delivery.start()
    for (const [index, [document, event]] of happenings.entries()) {
      await delivery.submit(document, { ...event, id: brandAs<EventId>(`given-${document}-${index}`) } as Event)
    }
    await delivery.idle()
    await delivery.stop()
  })
}

function opened(name: Name): readonly [DocumentId, Happening] {
  const { desk, ...card } = colleagues[name]
  return [desk, { kind: 'told', from: clinicId, told: { kind: 'opened', contact: { channel: 'net', address: name }, card } }]
}

function enrolled(chart: DocumentId): readonly [DocumentId, Happening] {
  return [chart, { kind: 'told', from: clinicId, told: { kind: 'enrolled', plan: extensionPlan, therapist: colleagues.maren, second: colleagues.idris } }]
}

async function stateOf(): Promise<{ readonly therapists: readonly unknown[]; readonly contacts: readonly unknown[] }> {
  return inStore(async (store) => ({
    therapists: [(await store.read<Chart>(chartId))?.therapist?.name, (await store.read<Chart>(noor))?.therapist?.name],
    contacts: await Promise.all((['maren', 'idris', 'saoirse'] as const).map(async (name) => (await store.read<Desk>(colleagues[name].desk))?.contact?.address)),
  }))
}

const close = (...args: readonly string[]) => runHere(['close-desk', ...args], { DATA_DIR: folder, LOG_LEVEL: 'error' })

beforeEach(async () => {
  folder = await makeTemporaryFolder()
  await submit(opened('maren'), opened('idris'), opened('saoirse'), enrolled(chartId), enrolled(noor))
})

describe('close-desk', () => {
  it('hands every client over and takes the account its desk, with the reason in the record', async () => {
    const ran = await close('Maren Holt', '--hand-over-to', 'Saoirse Bly', '--because', 'Has left the clinic.')
    expect(ran).toEqual({
      status: 0,
      complaints: [],
      printed: [
        'The desk of Maren Holt is closed. Saoirse Bly takes over 2 clients, with every alert that is open.',
        'Whoever takes over reads of it once Nuchal runs. Invitations for colleagues that nobody had used are void; hand out new ones.',
      ],
    })
    expect(await stateOf()).toEqual({ therapists: ['Saoirse Bly', 'Saoirse Bly'], contacts: [undefined, 'idris', 'saoirse'] })
    const entries = await inStore((store) => store.entries(clinicId))
    expect(entries.filter(({ kind }) => kind === 'desk-closed').map(({ data }) => data.reason)).toEqual(['Has left the clinic.'])
    const owed = await inStore((store) => store.owed(colleagues.saoirse.desk))
    expect(JSON.stringify(owed)).toContain('Maren Holt has left the clinic')
  })

  it('knows a desk by its id too, and prints data', async () => {
    const { maren, saoirse } = colleagues
    const ran = await close(maren.desk, '--hand-over-to', saoirse.desk, '--because', 'Has left.', '--json')
    expect(ran.printed.map((line) => JSON.parse(line) as unknown)).toEqual([{ closed: maren.desk, to: saoirse.desk, clients: 2 }])
  })

  it.each([
    ['nobody of that name', ['Ida Brook', '--hand-over-to', 'Idris Vane', '--because', 'left'], /^No therapist of this clinic is called Ida Brook\. Write one of: .*Maren Holt/],
    ['nobody of that name to take over', ['Maren Holt', '--hand-over-to', 'Ida Brook', '--because', 'left'], /^No therapist of this clinic is called Ida Brook/],
    ['the leaver to take over', ['Maren Holt', '--hand-over-to', 'Maren Holt', '--because', 'left'], /^--hand-over-to must be a colleague/],
    ['a reason of blanks', ['Maren Holt', '--hand-over-to', 'Idris Vane', '--because', ' '], /^--because needs a REASON/],
    ['no successor', ['Maren Holt', '--because', 'left'], /--hand-over-to <COLLEAGUE>/],
  ] as const)('refuses %s and changes nothing', async (_title, args, complaint) => {
    const before = await stateOf()
    const ran = await close(...args)
    expect([ran.status, ran.printed]).toEqual([2, []])
    expect(ran.complaints.join('\n')).toMatch(complaint)
    expect(await stateOf()).toEqual(before)
  })

  it('refuses the only therapist, and a successor whom nothing reaches', async () => {
    await submit([colleagues.idris.desk, { kind: 'reach', isReachable: false }])
    const unreachable = await close('Maren Holt', '--hand-over-to', 'Idris Vane', '--because', 'left')
    expect(unreachable.complaints).toEqual([expect.stringMatching(/^Idris Vane cannot be reached on their network, so that alerts would reach nobody\./)])
    await close('Idris Vane', '--hand-over-to', 'Saoirse Bly', '--because', 'left')
    await close('Maren Holt', '--hand-over-to', 'Saoirse Bly', '--because', 'left')
    const last = await close('Saoirse Bly', '--hand-over-to', 'Idris Vane', '--because', 'left')
    expect([last.status, last.complaints]).toEqual([2, [expect.stringMatching(/^Saoirse Bly is the only therapist of this clinic: nobody would read an alert\./)]])
    expect((await stateOf()).contacts).toEqual([undefined, undefined, 'saoirse'])
  })

  it('asks for the id where two have one name', async () => {
    const twin = brandAs<DocumentId>('desk-00000000dddd')
    const { name, zone, cover } = colleagues.maren
    await submit([twin, { kind: 'told', from: clinicId, told: { kind: 'opened', contact: { channel: 'net', address: 'twin' }, card: { name, zone, cover } } }])
    const ran = await close('Maren Holt', '--hand-over-to', 'Idris Vane', '--because', 'left')
    expect(ran.complaints).toEqual([expect.stringMatching(/^2 therapists are called Maren Holt\. Write the id instead: desk-/)])
    expect((await close(twin, '--hand-over-to', 'Idris Vane', '--because', 'left')).status).toBe(0)
  })
})
