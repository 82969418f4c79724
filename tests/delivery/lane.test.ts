import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { Lane, type Pending } from '#src/delivery/lane.ts'
import { brandAs, type EffectId } from '#src/domain/identifier.ts'
import { urgencies, type Urgency } from '#src/domain/message.ts'
import { contact, documentId } from '#tests/support/diary-handler.ts'

function pend(document: string, id: string, urgency: Urgency): Pending {
  const effect = {
    kind: 'send',
    id: brandAs<EffectId>(id),
    to: contact('ada'),
    message: { text: id, buttons: [] },
    urgency,
  } as const
  return { document: documentId(document), effect, isAgain: false, until: null, takenAt: 0 }
}

function empty(lane: Lane): string[] {
  const order: string[] = []
  for (let next = lane.next(); next !== null; next = lane.next()) {
    order.push(next.effect.id)
    lane.remove(next)
  }
  return order
}

function fill(...pendings: Pending[]): Lane {
  const lane = new Lane(contact('ada'))
  for (const pending of pendings) lane.add(pending)
  return lane
}

describe('a lane', () => {
  it('gives alerts before replies and replies before reminders across documents', () => {
    const lane = fill(pend('a', 'a1', 'reminder'), pend('b', 'b1', 'reply'), pend('c', 'c1', 'alert'))
    expect(empty(lane)).toEqual(['c1', 'b1', 'a1'])
  })

  it('keeps the order of one document whatever the urgency', () => {
    const lane = fill(pend('a', 'a1', 'reminder'), pend('a', 'a2', 'reply'), pend('a', 'a3', 'alert'))
    expect(empty(lane)).toEqual(['a1', 'a2', 'a3'])
  })

  it('lets what stands before an alert of its own document go with the alert', () => {
    const lane = fill(pend('b', 'b1', 'reply'), pend('a', 'a1', 'reminder'), pend('a', 'a2', 'alert'))
    expect(empty(lane)).toEqual(['a1', 'a2', 'b1'])
  })

  it('lets an alert go before what stands for itself of its own document, which keeps its order', () => {
    const apart = (id: string): Pending => {
      const pending = pend('a', id, 'reply')
      return { ...pending, effect: { ...pending.effect, isApart: true } as Pending['effect'] }
    }
    const lane = fill(apart('a1'), apart('a2'), pend('a', 'a3', 'alert'), pend('b', 'b1', 'reply'))
    expect(empty(lane)).toEqual(['a3', 'a1', 'a2', 'b1'])
  })

  it('gives equals in the order of arrival', () => {
    const lane = fill(pend('b', 'b1', 'reply'), pend('a', 'a1', 'reply'), pend('b', 'b2', 'reply'))
    expect(empty(lane)).toEqual(['b1', 'a1', 'b2'])
  })

  it('is as urgent as its most urgent message', () => {
    const alert = pend('b', 'b1', 'alert')
    const lane = fill(pend('a', 'a1', 'reminder'), alert)
    const before = lane.urgency()
    lane.remove(alert)
    expect([before, lane.urgency()]).toEqual(['alert', 'reminder'])
  })

  it('loses nothing, keeps each document’s order, and never gives before an alert what no alert waits for', () => {
    const message = fc.record({ document: fc.constantFrom('a', 'b', 'c'), urgency: fc.constantFrom(...urgencies) })
    fc.assert(
      fc.property(fc.array(message, { maxLength: 12 }), (messages) => {
        const pendings = messages.map(({ document, urgency }, index) => pend(document, `${document}${index}`, urgency))
        const order = empty(fill(...pendings)).map((id) => pendings.findIndex(({ effect }) => effect.id === id))
        expect(order.toSorted((a, b) => a - b)).toEqual(messages.map((_, index) => index))
        for (const document of ['a', 'b', 'c']) {
          const own = order.filter((index) => messages[index]?.document === document)
          expect(own).toEqual(own.toSorted((a, b) => a - b))
        }
        const lastAlert = order.findLastIndex((index) => messages[index]?.urgency === 'alert')
        const alerts = messages.filter(({ urgency }) => urgency === 'alert')
        const alerting = new Set<string>(alerts.map(({ document }) => document))
        const early = order.slice(0, lastAlert + 1).map((index) => messages[index]?.document ?? 'none')
        expect(early.filter((document) => !alerting.has(document))).toEqual([])
      }),
      { seed: 20270301, numRuns: 500 },
    )
  })
})
