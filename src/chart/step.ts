// The whole product in one pure function: a document, an event and the time give the next document, what is recorded and
// what is owed to the outside.
import type { Content } from '#src/content/content.ts'
import type { Flows } from '#src/conversation/flow.ts'
import type { DocumentId, Instant } from '#src/domain/identifier.ts'
import type { Entry } from '#src/domain/entry.ts'
import type { Effect } from '#src/domain/message.ts'
import { newChart, type Chart } from './chart.ts'
import { stepChart } from './client/step-chart.ts'
import { newClinic, type Clinic } from './clinic.ts'
import { stepClinic } from './clinic/step-clinic.ts'
import { newDesk, type Desk } from './desk.ts'
import { stepDesk } from './desk/step-desk.ts'
import { Draft, type Surroundings } from './draft.ts'
import type { Event } from './event.ts'
import type { AnyDocument } from './head.ts'
import { renameConversations } from './rename-conversations.ts'

export interface StepResult {
  readonly document: AnyDocument
  readonly entries: readonly Entry[]
  readonly effects: readonly Effect[]
  /** A session closed: its entries may go into a volume of their own. */
  readonly closesVolume: boolean
}

export type Step = (document: AnyDocument, event: Event, at: Instant) => StepResult

const steps: { readonly [Kind in AnyDocument['kind']]: (document: never, event: Event, at: Instant, around: Surroundings) => StepResult } = {
  clinic: (document: Clinic, event, at, around) => run(new Draft(document, event, at, around), event, stepClinic),
  desk: (document: Desk, event, at, around) => run(new Draft(document, event, at, around), event, stepDesk),
  chart: (document: Chart, event, at, around) => run(new Draft(document, event, at, around), event, stepChart),
}

function run<D extends AnyDocument>(draft: Draft<D>, event: Event, step: (draft: Draft<D>, event: Event) => void): StepResult {
  step(draft, event)
  const { document, entries, effects, closesVolume } = draft
  return { document, entries, effects, closesVolume }
}

export function createStep(content: Content, flows: Flows): Step {
  const around: Surroundings = { content, flows }
  return (document, event, at) => steps[document.kind](renameConversations(document, flows) as never, event, at, around)
}

/** The document that an id stands for before anything has happened to it. */
export function blankDocument(id: DocumentId, content: Content): AnyDocument {
  if (id.startsWith('chart-')) return newChart(id)
  if (id.startsWith('desk-')) return newDesk(id, [...content.languages.keys()][0] ?? 'en')
  return newClinic()
}
