// Floods: somebody sends faster than any network takes answers. Nobody else waits for it, and what is kept stays small.
import { describe, expect, it } from 'vitest'
import { createApp } from '#src/app.ts'
import type { Chart } from '#src/chart/chart.ts'
import { clinicId } from '#src/chart/clinic.ts'
import { digestOf } from '#src/chart/digest.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import type { Told } from '#src/chart/event.ts'
import { mostUnsent } from '#src/chart/route.ts'
import { brandAs, type DocumentId, type EventId } from '#src/domain/identifier.ts'
import type { Inbound } from '#src/ports/channel.ts'
import { createMemoryStore } from '#src/stores/memory/memory-store.ts'
import { colleagues } from '#tests/support/joined-clinic.ts'
import { ManualClock } from '#tests/support/manual-clock.ts'
import { FragileDisk } from '#tests/support/fragile-disk.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'
import { ScriptedChannel, later } from '#tests/support/scripted-channel.ts'
import { product } from '#tests/support/telegram-clinic.ts'

const charts = { orla: brandAs<DocumentId>('chart-00000000c11e'), noor: brandAs<DocumentId>('chart-00000000c12e') } as const
const names = { orla: 'Orla Tiernan', noor: 'Noor Lindqvist' } as const
type WithoutPlace<T> = T extends unknown ? Omit<T, 'id' | 'from'> : never

/** The whole product on a network that takes one message a second of each chat, with Orla and Noor ready to train. */
async function openClinic() {
  const clock = new ManualClock(Date.UTC(2026, 0, 5, 12))
  const channel = new ScriptedChannel()
  const store = createMemoryStore(new FragileDisk(), documentMigrations)
  await store.open()
  const app = createApp({ product, store, channels: [channel], clock, log: new RecordingLog(), wait: clock.wait })
  let count = 0
  const nextId = (): EventId => brandAs<EventId>(`flood-${(count += 1)}`)
  const tell = (to: DocumentId, told: Told) => app.delivery.submit(to, { id: nextId(), kind: 'told', from: clinicId, told })
  const send = (who: string, what: WithoutPlace<Inbound>) => app.delivery.receive({ ...what, id: nextId(), from: { channel: 'net', address: who } } as Inbound)
  const { desk, ...card } = colleagues.maren
  await tell(desk, { kind: 'opened', contact: { channel: 'net', address: 'maren' }, card })
  for (const who of ['orla', 'noor'] as const) {
    await tell(charts[who], { kind: 'enrolled', plan: { ...extensionPlan, client: { ...extensionPlan.client, name: names[who] } }, therapist: colleagues.maren, second: null })
    await tell(clinicId, { kind: 'invited', digest: digestOf(who), chart: charts[who], expiresAt: clock.now() + 1000 })
    await send(who, { kind: 'join', token: who })
    for (const text of ['go on', 'yes', 'yes', 'yes', 'yes']) await send(who, { kind: 'message', text })
  }
  await app.delivery.idle()
  for (const id of Object.values(charts)) expect((await store.read<Chart>(id))?.standing).toBe('active')
  const readyAt = new Map<string, number>()
  channel.answer = ({ address }, number) => {
    const waitMs = (readyAt.get(address) ?? 0) - clock.now()
    if (waitMs > 0) return later(waitMs)
    readyAt.set(address, clock.now() + 1000)
    return { kind: 'sent', ref: `ref-${number}` }
  }
  const chart = async (who: 'orla' | 'noor'): Promise<Chart> => {
    const found = await store.read<Chart>(charts[who])
    if (found === null) throw new Error('no such chart')
    return found
  }
  const sizeOf = async (who: 'orla' | 'noor'): Promise<number> => JSON.stringify(await chart(who)).length
  const owedTo = async (who: 'orla' | 'noor'): Promise<number> => (await store.owed(charts[who])).length
  return { app, channel, clock, store, send, chart, sizeOf, owedTo }
}

/** A thousand messages within a minute. */
async function flood(clinic: Awaited<ReturnType<typeof openClinic>>, textOf: (number: number) => string): Promise<void> {
  for (let number = 0; number < 1000; number += 1) {
    await clinic.send('orla', { kind: 'message', text: textOf(number) })
    await clinic.clock.advance(60)
  }
}

/** One answer more, with the question asked anew, may be under way when the limit is met. */
const mostOnTheWay = mostUnsent + 5

describe('a client who sends a thousand messages in a minute', { timeout: 120_000 }, () => {
  it.each([
    ['that answer nothing', (number: number) => `what about ${number}`],
    ['for the therapist', (number: number) => `tell my therapist: it is ${number} o'clock`],
    ['of the longest length', (number: number) => `${number} ${'word '.repeat(800)}`],
  ])('%s is owed no more than so many answers, and the chart stays small', async (_what, textOf) => {
    const clinic = await openClinic()
    const before = await clinic.sizeOf('orla')
    await flood(clinic, textOf)
    expect(await clinic.owedTo('orla')).toBeLessThanOrEqual(mostOnTheWay)
    // To the client and to their therapist, stored or not.
    expect(clinic.app.delivery.waiting().reduce((sum, { count }) => sum + count, 0)).toBeLessThanOrEqual(2 * mostOnTheWay)
    expect(await clinic.sizeOf('orla')).toBeLessThan(before + 10_000)
    await clinic.app.stop()
  })

  it('does not delay another client’s answer', async () => {
    const clinic = await openClinic()
    await flood(clinic, (number) => `what about ${number}`)
    await clinic.clock.advance(5000)
    const before = clinic.channel.texts('noor').length
    await clinic.send('noor', { kind: 'message', text: 'help' })
    await clinic.clock.advance(1000)
    expect(clinic.channel.texts('noor').slice(before)).toEqual([expect.stringContaining('If something feels wrong, stop and put the weight down.')])
    await clinic.app.stop()
  })

  it('for the therapist does not delay the alert of another client', async () => {
    const clinic = await openClinic()
    await flood(clinic, (number) => `tell my therapist: it is ${number} o'clock`)
    await clinic.send('noor', { kind: 'message', text: 'half my face is drooping' })
    let seconds = 0
    for (; !clinic.channel.texts('maren').some((text) => text.includes('EMERGENCY – Noor')); seconds += 1) await clinic.clock.advance(1000)
    expect(seconds).toBeLessThan(3)
    await clinic.app.stop()
  })

  it('is not answered any faster by a process that leaves the sending to another one', async () => {
    const clinic = await openClinic()
    const find = clinic.store.findByContact
    clinic.store.findByContact = async (contact) => {
      const head = await find.call(clinic.store, contact)
      return head === null ? null : { ...head, owing: mostUnsent }
    }
    await clinic.send('orla', { kind: 'message', text: 'help' })
    await clinic.send('orla', { kind: 'message', text: 'half my face is drooping' })
    await clinic.clock.advance(10_000)
    expect(clinic.channel.texts('orla').some((text) => text.includes('If something feels wrong'))).toBe(false)
    expect((await clinic.chart('orla')).lock?.level).toBe('emergency')
    await clinic.app.stop()
  })

  it('is still heard when something is wrong, and it alarms once', async () => {
    const clinic = await openClinic()
    await flood(clinic, (number) => `what about ${number}`)
    for (let number = 0; number < 50; number += 1) await clinic.send('orla', { kind: 'message', text: 'half my face is drooping' })
    const { lock, alerts } = await clinic.chart('orla')
    expect([lock?.level, alerts.length]).toEqual(['emergency', 1])
    await clinic.clock.advance(120_000)
    expect(clinic.channel.texts('maren').filter((text) => text.includes('EMERGENCY – Orla Tiernan')).length).toBe(1)
    await clinic.app.stop()
  })

  it('of an emergency, and nothing else, makes no more alerts than a person can read', async () => {
    const clinic = await openClinic()
    await flood(clinic, () => 'half my face is drooping')
    const { alerts } = await clinic.chart('orla')
    expect(alerts.length).toBeGreaterThan(0)
    expect(alerts.length).toBeLessThanOrEqual(50)
    await clinic.app.stop()
  })

  it('is answered as ever once the network has caught up', async () => {
    const clinic = await openClinic()
    await flood(clinic, (number) => `what about ${number}`)
    await clinic.clock.advance(600_000)
    expect(await clinic.owedTo('orla')).toBe(0)
    const before = clinic.channel.texts('orla').length
    await clinic.send('orla', { kind: 'message', text: 'help' })
    await clinic.clock.advance(10_000)
    expect(clinic.channel.texts('orla').length).toBeGreaterThan(before)
    await clinic.app.stop()
  })
})

describe('a stranger who sends a thousand messages in a minute', () => {
  it('is answered five times, and leaves nothing', async () => {
    const clinic = await openClinic()
    const heads = await clinic.store.heads()
    const stored = await clinic.store.read(clinicId)
    for (let number = 0; number < 1000; number += 1) await clinic.send('stranger', { kind: 'message', text: `please ${number}` })
    await clinic.clock.advance(60_000)
    expect(clinic.channel.texts('stranger').length).toBe(5)
    expect(await clinic.store.heads()).toEqual(heads)
    expect(await clinic.store.read(clinicId)).toEqual(stored)
    await clinic.app.stop()
  })
})
