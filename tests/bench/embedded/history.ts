// A client's past, played once by the rehearsal's own machinery and kept as the events that made it.
import { flows } from '#flows/registry.ts'
import type { Event } from '#src/chart/event.ts'
import { createStep, type Step } from '#src/chart/step.ts'
import { inventClients } from '#src/commands/rehearse/invent-clients.ts'
import { rehearseInvented } from '#src/commands/rehearse/rehearse-plan.ts'
import type { Content } from '#src/content/content.ts'
import { brandAs, type DocumentId, type Instant } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'

/** What happened to one chart, and when. */
export interface Happened {
  readonly event: Event
  readonly at: Instant
}

/** As the rehearsal names the only client it has. */
export const rehearsedChart = brandAs<DocumentId>('chart-000000000000')
export const rehearsedContact = '"channel":"virtual","address":"client"'

/** A client who trains steadily for so many weeks from the rehearsal's first Monday. */
export function playHistory(plan: Plan, content: Content, weeks: number): readonly Happened[] {
  const happened: Happened[] = []
  const step = createStep(content, flows)
  const recording: Step = (document, event, at) => {
    if (document.id === rehearsedChart) happened.push({ event, at })
    return step(document, event, at)
  }
  const [invented] = inventClients(plan, content, { count: 1, seed: 1, weeks, kind: 'steady' })
  if (invented === undefined) throw new RangeError('no client was invented')
  rehearseInvented(plan, invented.attendances, recording, content)
  return happened
}

/**
 * How many events until a session is about to begin, the question whether they are ready on the screen: the first one after
 * so many answers, given by word or button; at the last session of all if there is none.
 */
export function untilReadyAfter(answers: number): (history: readonly Happened[]) => number {
  return (history) => {
    const starts = history.flatMap(({ event }, index) => (event.kind === 'press' && event.data.endsWith(':ready') ? [index] : []))
    const given = (index: number): number => history.slice(0, index).filter(({ event }) => event.kind === 'press' || event.kind === 'message').length
    const found = starts.find((index) => given(index) >= answers) ?? starts.at(-1)
    if (found === undefined) throw new RangeError('no session begins with its reminder')
    return found
  }
}

export function chartOf(number: number): DocumentId {
  return brandAs<DocumentId>(`chart-${number.toString(16).padStart(12, '0')}`)
}

export function chatOf(number: number): number {
  return 900_000_000 + number
}
