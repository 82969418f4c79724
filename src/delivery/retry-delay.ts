import type { Urgency } from '#src/domain/message.ts'

const firstMs = 1000
/** Our choice, but for alerts: one that did not get out is tried again within a minute, for however long it takes. */
const longestMs: Record<Urgency, number> = { alert: 60_000, reply: 300_000, reminder: 300_000 }

/** How long to hold back after so many failures running: 1 s, 2 s, 4 s and so on. */
export function retryDelayMs(failures: number, urgency: Urgency): number {
  return Math.min(firstMs * 2 ** (failures - 1), longestMs[urgency])
}
