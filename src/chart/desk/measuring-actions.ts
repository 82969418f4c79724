// Maximal tests entered at a therapist's desk; the client's chart says what they change.
import type { Conversation, Facts } from '#src/conversation/flow.ts'
import type { Answer, Option } from '#src/conversation/question.ts'
import type { MeasuredForce } from '#src/conversation/questions/measured-force.ts'
import type { Direction } from '#src/domain/direction.ts'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Measurement } from '#src/domain/plan.ts'
import { localDateOf } from '#src/schedule/wall-time.ts'
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'
import type { ActionHandler, Values } from '../turn.ts'
import { doubtOf } from './doubt.ts'
import { measurementOf } from './enrolment-ladders.ts'
import { setOnTop } from './set-on-top.ts'

type Data = Conversation['data']

/** One direction's test, as gathered so far. */
interface Taken {
  readonly direction: Direction
  readonly force: MeasuredForce
}

const doneOption = 'done'

function takenOf(data: Data): readonly Taken[] {
  return Array.isArray(data.taken) ? (data.taken as readonly Taken[]) : []
}

function directionsLeft(data: Data): readonly Direction[] {
  const all = Array.isArray(data.directions) ? (data.directions as readonly Direction[]) : []
  return all.filter((direction) => !takenOf(data).some((taken) => taken.direction === direction))
}

/** The direction whose trials are asked for now. */
export function directionMeasured(data: Data): Direction | null {
  return directionsLeft(data).find((direction) => direction === data.direction) ?? null
}

export function measuringFacts({ data, state }: Conversation): Facts {
  const direction = directionMeasured(data)
  const left = directionsLeft(data)
  return {
    hasChoice: left.length > 1 || (left.length > 0 && takenOf(data).length > 0),
    hasDirectionLeft: left.length > 0,
    isImplausible: state === 'weighing' && direction !== null && doubtOf(direction, data.trials, data.doubted) !== null,
  }
}

export const measuringActions: Readonly<Record<string, ActionHandler<Desk>>> = {
  'take-only-direction': (draft, { data }) => setOnTop(draft, { ...data, direction: directionsLeft(data)[0] ?? null }),
  'keep-trials': keepTrials,
  'forget-measurements': (draft, { data }) => setOnTop(draft, { ...data, taken: [] }),
  'forget-last-measurement': (draft, { data }) => setOnTop(draft, { ...data, taken: takenOf(data).slice(0, -1) }),
  'save-measurements': saveMeasurements,
}

function keepTrials(draft: Draft<Desk>, { data }: Conversation): void {
  const direction = directionMeasured(data)
  if (direction === null) return
  const { trials, doubted: _doubted, direction: _direction, ...rest } = data
  setOnTop(draft, { ...rest, taken: [...takenOf(data), { direction, force: trials }] as unknown as Answer })
}

function measurementsOf(draft: Draft<Desk>, data: Data): readonly Measurement[] {
  const on = localDateOf(draft.at, draft.document.zone)
  return takenOf(data).map(({ direction, force }) => measurementOf(direction, force, on))
}

function saveMeasurements(draft: Draft<Desk>, { data }: Conversation): void {
  const { id, name } = draft.document
  const told = { kind: 'measured' as const, by: { desk: id, name }, measurements: measurementsOf(draft, data) }
  draft.tell(data.chart as DocumentId, told)
}

export function measuringOptions(data: Data): readonly Option[] {
  const left = directionsLeft(data).map((direction) => ({ value: direction, words: `common.direction.${direction}` }))
  return takenOf(data).length === 0 ? left : [...left, { value: doneOption, words: 'common.that-is-all', saidBy: ['done', 'none', 'ready'] }]
}

export function measuringValues(draft: Draft<Desk>, { data }: Conversation): Values {
  const words = draft.words(draft.document.language)
  const direction = directionMeasured(data)
  const lines = takenOf(data).map(({ direction: one, force }) => describeTrials(draft, one, force))
  return {
    client: String(data.client),
    direction: direction === null ? '' : words.say(`common.direction.${direction}`),
    lines: lines.join('\n'),
  }
}

function describeTrials(draft: Draft<Desk>, direction: Direction, { trials, unit, leverCm }: MeasuredForce): string {
  const words = draft.words(draft.document.language)
  return words.say('measuring.line', {
    direction: words.say(`common.direction.${direction}`),
    best: Math.max(...trials),
    unit,
    trials: trials.join(', '),
    count: trials.length,
    lever: leverCm === null ? 'unknown' : leverCm,
  })
}
