// Puts what a rig has taken to the embedded store, as the product would, and so leaves a folder as the product leaves it.
import { createHandler, type Product } from '#src/handler.ts'
import type { Event } from '#src/chart/event.ts'
import type { Handler } from '#src/delivery/handler.ts'
import type { EffectId } from '#src/domain/identifier.ts'
import type { Store } from '#src/ports/store.ts'
import type { Taken } from '../clinic-rig.ts'

export type Buttons = ReadonlyMap<EffectId, readonly string[]>

/**
 * Commits every event and marks what it owes as delivered; of the last one nothing is, where the process is cut off. Resolves
 * with the data of every message's buttons, by the effect that sent it.
 */
export async function putToStore(store: Store, product: Product, taken: readonly Taken[], isCutOff: boolean): Promise<Buttons> {
  const handler = createHandler(product, { linkOf: (_channel, token) => `https://chat.example/${token}`, onFailed: failLoudly })
  const buttons = new Map<EffectId, readonly string[]>()
  for (const [index, { to, event, at }] of taken.entries()) {
    const { owed } = await store.apply(to, event.id, (document) => committed(handler.step(document, event, at, to)))
    for (const { effect } of owed) {
      if (effect.kind === 'send') buttons.set(effect.id, effect.message.buttons.flat().map(({ data }) => data))
      if (isCutOff && index === taken.length - 1) continue
      await store.settle(to, effect.id, { kind: 'delivered', ref: effect.kind === 'send' ? `m${buttons.size}` : null })
    }
  }
  return buttons
}

/** A reply to nobody known commits nothing. */
function committed(result: ReturnType<Handler<Event>['step']>): ReturnType<Parameters<Store['apply']>[2]> {
  return result === null || 'kind' in result ? null : result
}

function failLoudly(document: string, errorName: string): never {
  throw new Error(`a step of ${document} threw ${errorName}`)
}
