// What the delivery asks of the conversation's side, answered by the step.
import { route } from '#src/chart/route.ts'
import { headOf, type AnyDocument } from '#src/chart/head.ts'
import { noInvitation, type Event, type Told } from '#src/chart/event.ts'
import { failSafe } from '#src/chart/fail-safe.ts'
import { blankDocument, type Step } from '#src/chart/step.ts'
import { flows } from '#flows/registry.ts'
import type { Content } from '#src/content/content.ts'
import type { Handler, ReplyOnly, SendEffect, StepResult } from '#src/delivery/handler.ts'
import { createAdmitStranger, type OnTriedOften } from './admit-stranger.ts'

export interface Product {
  readonly content: Content
  readonly step: Step
}

export interface HandlerParts {
  /** The link that opens an invitation on a network. */
  readonly linkOf: (channel: string, token: string) => string
  /** A step of ours that threw; the log is told where and what kind, never what was said. */
  readonly onFailed: (document: string, errorName: string) => void
  /** An alert arrived at no therapist; the client has been told. */
  readonly onNobodyReached?: (document: string) => void
  readonly onTriedOften?: OnTriedOften
  /** Whether the network is not heard just now. */
  readonly isDeaf?: () => boolean
}

export function createHandler(product: Product, parts: HandlerParts): Handler<Event> {
  const { linkOf, onFailed, onNobodyReached = ignore, onTriedOften = ignore, isDeaf = () => false } = parts
  const { content } = product
  const admitStranger = createAdmitStranger(onTriedOften)
  return {
    route: (inbound, head, newSecret, unsent) => {
      // Only a desk gives out invitations; drawn for everybody, a token would cost a client's answer more than its routing.
      const token = head?.kind === 'desk' ? newSecret() : null
      return route(inbound, head, token === null ? noInvitation : { token, link: linkOf(inbound.from.channel, token) }, unsent)
    },
    receiveTell: (from, effect) => ({ id: effect.id as unknown as Event['id'], kind: 'told', from, told: effect.told as Told }),
    wake: (id) => ({ id, kind: 'wake', ...(isDeaf() ? { isDeaf: true } : {}) }),
    undeliverable: (effect, reason, id) => ({ id, kind: 'undeliverable', effect, reason }),
    unreminded: (effect, reason, id) => ({ id, kind: 'unreminded', effect, reason }),
    delayed: (effect, id) => ({ id, kind: 'delayed', effect }),
    step: (stored, event, at, id): StepResult => {
      // A timer or a failed send of a document that is gone must not bring it back.
      if (stored === null && ofStoredOnly.has(event.kind)) return null
      const document = (stored as AnyDocument | null) ?? blankDocument(id, content)
      const admitted = document.kind === 'clinic' ? admitStranger(document, event, at) : event
      if (admitted === null) return null
      const result = attempt(product, document, admitted, at, onFailed)
      if (result.entries.some(({ kind }) => kind === 'nobody-reached')) onNobodyReached(document.id)
      const isUntouched = result.document === document && result.entries.length === 0
      if (isUntouched && result.effects.length === 0) return null
      if (isUntouched && fromPerson.has(event.kind) && result.effects.every(isSend)) {
        return { kind: 'reply-only', effects: result.effects.filter(isSend) } satisfies ReplyOnly
      }
      return { ...result, head: headOf(result.document) }
    },
  }
}

/** Whoever gets no answer asks again; what one document tells another, nobody would tell again. */
const fromPerson: ReadonlySet<Event['kind']> = new Set(['message', 'press', 'unreadable', 'join', 'group'])

const ofStoredOnly: ReadonlySet<Event['kind']> = new Set(['wake', 'undeliverable', 'unreminded', 'delayed', 'unheard'])

/** Where our own mistake would leave a person without an answer, they get one and the therapist gets their words. */
function attempt({ step, content }: Product, document: AnyDocument, event: Event, at: number, onFailed: HandlerParts['onFailed']): ReturnType<Step> {
  try {
    return step(document, event, at)
  } catch (error) {
    const answered = failSafe(document, event, at, { content, flows })
    if (answered === null) throw error
    onFailed(document.id, error instanceof Error ? error.name : 'unknown')
    return answered
  }
}

function isSend(effect: { readonly kind: string }): effect is SendEffect {
  return effect.kind === 'send'
}

function ignore(): void {}
