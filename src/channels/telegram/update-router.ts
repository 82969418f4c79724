import { Composer } from 'grammy'
import type { Context } from 'grammy'
import type { Inbound, Receive } from '#src/ports/channel.ts'
import { handledKinds, readUpdate } from './read-update.ts'

/** Hands on what each update means; a group is told of once per process, and never again under its new address. */
export function createUpdateRouter(receive: Receive): Composer<Context> {
  const router = new Composer<Context>()
  const toldGroups = new Set<string>()

  async function deliver(inbound: Inbound): Promise<void> {
    if (inbound.kind === 'group' && toldGroups.has(inbound.from.address)) return
    if (inbound.kind === 'moved') toldGroups.add(inbound.to.address)
    await receive(inbound)
    // Marked afterwards, so that a failed telling is tried again.
    if (inbound.kind === 'group') toldGroups.add(inbound.from.address)
  }

  for (const kind of handledKinds) {
    router.on(kind, async (context) => {
      const inbound = readUpdate(context, kind)
      if (inbound !== null) await deliver(inbound)
    })
  }
  return router
}
