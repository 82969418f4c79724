// Pain-monitoring model: Thomeé 1997, Phys Ther 77(12):1690-1703; Silbernagel 2007, Am J Sports Med 35(6):897-906. The three
// rules [memory:high], next morning and no weekly rise [found-2nd] https://bim.physio/the-pain-monitoring-model/ ; the
// actions are a reading of them [convention]. Tested in knee-cap and heel-tendon pain, not in necks.

/** From the most to the least demanding. */
export const actions = ['may progress', 'repeat', 'reduce', 'stop and regress'] as const
export type Action = (typeof actions)[number]

export interface Observed {
  readonly during: number
  readonly after: number
  readonly isWorseNextMorning: boolean
  readonly isRisingOverWeeks: boolean
}

/** Up to 5 during and after; settled by the morning; no rise from week to week; safe, and free to progress, up to 2. */
export function act({ during, after, isWorseNextMorning, isRisingOverWeeks }: Observed): Action {
  if (during > 5) return 'stop and regress'
  if (after > 5 || isWorseNextMorning || isRisingOverWeeks) return 'reduce'
  return Math.max(during, after) > 2 ? 'repeat' : 'may progress'
}
