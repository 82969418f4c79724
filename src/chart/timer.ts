import type { Instant } from '#src/domain/identifier.ts'

export const timerKinds = [
  'reminder',
  'check-in',
  'weekly',
  'silence',
  'session-end',
  'resend-alert',
  'contact-due',
  'ask-called',
  'ask-sign-again',
  'sign-unanswered',
  'absence',
  'supervision',
  // After the review, which asks for a retest that falls due with it.
  'retest',
  /** Asks whether a break without an end is over. */
  'pause-over',
  /** A question whose answer may have been lost waits for the end of the quiet hours. */
  'ask-again',
] as const
export type TimerKind = (typeof timerKinds)[number]

/** Something that falls due. There is one timer of a kind for each `about`. */
export interface Timer<Kind extends string = TimerKind> {
  readonly kind: Kind
  /** What it concerns, e.g. an alert; empty where there can be only one. */
  readonly about: string
  readonly dueAt: Instant
}

export function withTimer<Kind extends string>(timers: readonly Timer<Kind>[], timer: Timer<Kind>): readonly Timer<Kind>[] {
  return [...withoutTimer(timers, timer.kind, timer.about), timer]
}

/** Without the timers of a kind; of one matter only where `about` is given. */
export function withoutTimer<Kind extends string>(timers: readonly Timer<Kind>[], kind: NoInfer<Kind>, about?: string): readonly Timer<Kind>[] {
  return timers.filter((timer) => timer.kind !== kind || (about !== undefined && timer.about !== about))
}

export function earliestDue(timers: readonly Timer<string>[]): Instant | null {
  return timers.length === 0 ? null : Math.min(...timers.map((timer) => timer.dueAt))
}
