import { describe, expect, it } from 'vitest'
import { headOf } from '#src/chart/head.ts'
import { newChart } from '#src/chart/chart.ts'
import { newDesk } from '#src/chart/desk.ts'
import { actKinds } from '#src/chart/event.ts'
import { readMatter, route } from '#src/chart/route.ts'
import { brandAs, type DocumentId, type EventId } from '#src/domain/identifier.ts'
import type { Head } from '#src/ports/store.ts'

const from = { channel: 'rig', address: 'somebody' }
const id = brandAs<EventId>('event-1')
const invitation = { token: 'token', link: 'https://chat.example/token' }
const chart = brandAs<DocumentId>('chart-00000000c11e')
const desk = brandAs<DocumentId>('desk-00000000aaaa')
const client: Head = { ...headOf(newChart(chart)), contacts: [from] }
const therapist: Head = { ...headOf({ ...newDesk(desk, 'en'), name: 'Maren Holt' }), contacts: [from] }
const acknowledge = `m:${chart}:12:acknowledge:a1`

describe('what comes in', () => {
  it.each([
    ['a message of an unknown chat', { kind: 'message', id, from, text: 'hello' }, null, 'clinic'],
    ['a message of a client', { kind: 'message', id, from, text: 'hello' }, client, chart],
    ['a message of a therapist', { kind: 'message', id, from, text: 'hello' }, therapist, desk],
    ['an invitation opened by a client', { kind: 'join', id, from, token: 't' }, client, 'clinic'],
    ['a word in a group, even of a therapist', { kind: 'group', id, from }, therapist, 'clinic'],
    ['a press of an unknown chat on a client’s matter', { kind: 'press', id, from, data: acknowledge }, null, 'clinic'],
    ['a press of a client on a client’s matter', { kind: 'press', id, from, data: acknowledge }, client, chart],
    ['a press of a therapist on a client’s matter', { kind: 'press', id, from, data: acknowledge }, therapist, chart],
    ['a press of a therapist at their own desk', { kind: 'press', id, from, data: 'p:3:yes' }, therapist, desk],
    ['a message from a chat that moved', { kind: 'moved', id, from, to: from }, client, chart],
  ] as const)('as %s goes to the right document', (_title, inbound, head, document) => {
    expect(route(inbound, head, invitation).document).toBe(document)
  })

  it('as a therapist’s press carries who pressed and the revision they saw', () => {
    expect(route({ kind: 'press', id, from, data: acknowledge }, therapist, invitation).event).toEqual({
      id,
      kind: 'act',
      by: { desk, name: 'Maren Holt' },
      act: 'acknowledge',
      about: 'a1',
      seenRevision: 12,
    })
  })

  it('as a client’s press never is a therapist’s act', () => {
    expect(route({ kind: 'press', id, from, data: acknowledge }, client, invitation).event.kind).toBe('press')
  })

  it('as an edited message says so', () => {
    expect(route({ kind: 'message', id, from, text: 'x', isEdit: true }, client, invitation).event).toMatchObject({ isEdit: true })
    expect(route({ kind: 'message', id, from, text: 'x' }, client, invitation).event).toMatchObject({ isEdit: false })
  })
})

describe('the data of a press on a client’s matter', () => {
  it.each(actKinds)('is read for the act %s', (act) => {
    expect(readMatter(`m:${chart}:7:${act}:rung-3-extension`)).toEqual({ chart, act, about: 'rung-3-extension', seenRevision: 7 })
  })

  it.each([
    '',
    'p:1:yes',
    `m:${chart}:7:erase:a1`,
    `m:${desk}:7:look:now`,
    'm:chart-xyz:7:look:now',
    `m:${chart}:-1:look:now`,
    `m:${chart}:7:look`,
    `m:${chart}:7:look:a1:more`,
    `m:${chart}:7:look:a1\n`,
  ])('is nothing of the kind where it is %j', (data) => {
    expect(readMatter(data)).toBeNull()
  })
})
