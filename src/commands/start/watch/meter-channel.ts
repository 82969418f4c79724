import type { Channel, SendResult } from '#src/ports/channel.ts'
import type { Meters } from './meters.ts'

/** The same channel, with what comes in and goes out counted. */
export function meterChannel<C extends Channel>(channel: C, { inbound: taken, sends }: Pick<Meters, 'inbound' | 'sends'>): C {
  const network = channel.name
  async function count(kind: string, send: () => Promise<SendResult>): Promise<SendResult> {
    try {
      const result = await send()
      sends.inc({ network, kind, outcome: result.kind })
      return result
    } catch (error) {
      sends.inc({ network, kind, outcome: 'threw' })
      throw error
    }
  }
  return {
    ...channel,
    start: (receive, failed) =>
      channel.start(async (inbound) => {
        try {
          await receive(inbound)
          taken.inc({ network, kind: inbound.kind, outcome: 'taken' })
        } catch (error) {
          taken.inc({ network, kind: inbound.kind, outcome: 'failed' })
          throw error
        }
      }, failed),
    send: (to, message, urgency) => count(urgency, () => channel.send(to, message, urgency)),
    amend: (to, ref, text) => count('amend', () => channel.amend(to, ref, text)),
  } satisfies Channel as C
}
