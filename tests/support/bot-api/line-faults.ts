// What a line, a proxy or an ill server does to one call, or to all of them.
import { toAnswer, type Answer, type Refusal } from './answer.ts'

export type LineFault =
  /** The server refuses, whatever it would have said. */
  | ({ readonly kind: 'refuse' } & Refusal)
  /** A proxy answers with a page. */
  | { readonly kind: 'page'; readonly status: number }
  /** The connection breaks before the call had its effect. */
  | { readonly kind: 'cut-before' }
  /** The call has its effect, and the connection breaks before anybody hears of it. */
  | { readonly kind: 'cut-after' }
  /** The connection stays open, and nothing comes; without and with the effect. */
  | { readonly kind: 'silence' }
  | { readonly kind: 'silence-after' }
  | { readonly kind: 'slow'; readonly ms: number }

/** What happens to the connection: an answer, a cut, or nothing at all. */
export type Ending = Answer | 'cut' | 'silence'

type Apply<Kind extends LineFault['kind']> = (
  fault: Extract<LineFault, { kind: Kind }>,
  act: () => Promise<Answer>,
  wait: (ms: number) => Promise<void>,
) => Promise<Ending>

const appliers: { readonly [Kind in LineFault['kind']]: Apply<Kind> } = {
  refuse: async (refused) => toAnswer(refused),
  page: async ({ status }) => ({ status, body: `<html><body>${status}</body></html>` }),
  'cut-before': async () => 'cut',
  'cut-after': async (_fault, act) => {
    await act()
    return 'cut'
  },
  silence: async () => 'silence',
  'silence-after': async (_fault, act) => {
    await act()
    return 'silence'
  },
  slow: async ({ ms }, act, wait) => {
    await wait(ms)
    return act()
  },
}

export function applyFault(fault: LineFault | null, act: () => Promise<Answer>, wait: (ms: number) => Promise<void>): Promise<Ending> {
  return fault === null ? act() : (appliers[fault.kind] as Apply<LineFault['kind']>)(fault, act, wait)
}

/** Which fault meets the next call of a method. */
export interface FaultPlan {
  /** The next calls of a method, one fault each; null lets a call through. */
  plan(method: string, ...faults: readonly (LineFault | null)[]): void
  /** Every call from now on, of every method, until told otherwise; planned faults go before it. */
  setLine(fault: LineFault | null): void
  next(method: string): LineFault | null
}

export function createFaultPlan(): FaultPlan {
  const planned = new Map<string, (LineFault | null)[]>()
  let line: LineFault | null = null
  return {
    plan(method, ...faults) {
      planned.set(method, [...(planned.get(method) ?? []), ...faults])
    },
    setLine(fault) {
      line = fault
    },
    next(method) {
      const own = planned.get(method)
      const next = own?.shift()
      if (own?.length === 0) planned.delete(method)
      return next === undefined ? line : next
    },
  }
}
