import { describe, expect, it } from 'vitest'
import { flows } from '#flows/registry.ts'
import { newChart } from '#src/chart/chart.ts'
import { newDesk } from '#src/chart/desk.ts'
import { invite } from '#src/chart/desk/enrol-client.ts'
import { Draft } from '#src/chart/draft.ts'
import { headOf } from '#src/chart/head.ts'
import { createStep } from '#src/chart/step.ts'
import { brandAs, type DocumentId, type EventId } from '#src/domain/identifier.ts'
import { createHandler } from '#src/handler.ts'
import type { Inbound } from '#src/ports/channel.ts'
import { content } from '#tests/support/sample-chain.ts'

const from = { channel: 'rig', address: 'somebody' }
const id = brandAs<EventId>('event-1')
const client = headOf(newChart(brandAs<DocumentId>('chart-00000000c11e')))
const therapist = headOf(newDesk(brandAs<DocumentId>('desk-00000000aaaa'), 'en'))
const handler = createHandler({ content, step: createStep(content, flows) }, { linkOf: (channel, token) => `${channel}/${token}`, onFailed: () => {} })
const inbounds: readonly Inbound[] = [
  { kind: 'message', id, from, text: 'hello' },
  { kind: 'press', id, from, data: 'p:3:yes' },
]

describe('a token for an invitation', () => {
  it.each(inbounds)('is drawn for a therapist, and comes with its link: $kind', (inbound) => {
    const { event } = handler.route(inbound, therapist, () => 'drawn', 0)
    expect(event).toMatchObject({ invitation: { token: 'drawn', link: 'rig/drawn' } })
  })

  it.each(inbounds)('is drawn for nobody else: $kind', (inbound) => {
    const draw = (): never => {
      throw new Error('drawn')
    }
    for (const head of [client, null]) expect(handler.route(inbound, head, draw, 0).event).toMatchObject({ invitation: { token: '', link: '' } })
  })

  it('that was never drawn is given to nobody: it would open to whoever brings none', () => {
    const draft = new Draft(newDesk(brandAs<DocumentId>('desk-00000000aaaa'), 'en'), { id, kind: 'wake' }, 0, { content, flows })
    expect(() => invite(draft, null)).toThrow('an event that brings no invitation gives none out')
  })
})
