// What the delivery asks of the conversation's side, answered by the step.
import { route } from '#src/chart/route.ts'
import { headOf, type AnyDocument } from '#src/chart/head.ts'
import type { Event, Told } from '#src/chart/event.ts'
import { blankDocument, type Step } from '#src/chart/step.ts'
import type { Content } from '#src/content/content.ts'
import type { Handler, ReplyOnly, SendEffect, StepResult } from '#src/delivery/handler.ts'

/** The link that opens an invitation on a network. */
export type InvitationLink = (channel: string, token: string) => string

export function createHandler(step: Step, content: Content, linkOf: InvitationLink): Handler<Event> {
  return {
    route: (inbound, head, secret) => route(inbound, head, { token: secret, link: linkOf(inbound.from.channel, secret) }),
    receiveTell: (from, effect) => ({ id: effect.id as unknown as Event['id'], kind: 'told', from, told: effect.told as Told }),
    wake: (id) => ({ id, kind: 'wake' }),
    undeliverable: (effect, reason, id) => ({ id, kind: 'undeliverable', effect, reason }),
    step: (stored, event, at, id): StepResult => {
      // A timer or a failed send of a document that is gone must not bring it back.
      if (stored === null && (event.kind === 'wake' || event.kind === 'undeliverable')) return null
      const document = (stored as AnyDocument | null) ?? blankDocument(id, content)
      const result = step(document, event, at)
      const isUntouched = result.document === document && result.entries.length === 0
      if (isUntouched && result.effects.every(isSend)) {
        return result.effects.length === 0 ? null : ({ kind: 'reply-only', effects: result.effects.filter(isSend) } satisfies ReplyOnly)
      }
      return { ...result, head: headOf(result.document) }
    },
  }
}

function isSend(effect: { readonly kind: string }): effect is SendEffect {
  return effect.kind === 'send'
}
