// What a therapist reads of a client's loads: the measured maximum, what its shares come to with what is owned, what that
// rests on, and what the last sets let one guess. Nothing here changes a dose.
import type { Load } from '#src/domain/dose.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { Exercise } from '#src/domain/exercise.ts'
import { stateAssumptions } from '#src/rules/assumptions-for.ts'
import { bandFit, type BandFit } from '#src/rules/band-fit.ts'
import { estimateMaximum } from '#src/rules/estimate-maximum.ts'
import { loadTable, type LoadRow } from '#src/rules/load-table.ts'
import { laddersOf } from '#src/rules/plan-ladders.ts'
import type { Tool } from '#src/rules/working-load.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { chainOf, exerciseOf, loadFactsOf, planOf, protocolOf } from './plan-facts.ts'
import { describeLoad, say } from './say.ts'

export function describeLoads(draft: Draft<Chart>): string {
  const plan = planOf(draft.document)
  const { text } = say(draft, 'therapist')
  const parts = laddersOf(plan).map((ladder) => ladderLines(draft, ladder)).filter((lines) => lines.length > 0)
  const assumptions = stateAssumptions(plan.assumptions, draft.content.assumptions).map(({ id, value, source }) =>
    text('loads.assumption', { what: text(`loads.assumptions.${id}`), value, source }),
  )
  const whole = [[text('loads.title', { client: plan.client.name })], ...parts, [text('loads.assumed'), ...assumptions]]
  return whole.map((lines) => lines.join('\n')).join('\n\n')
}

function ladderLines(draft: Draft<Chart>, ladder: LadderId): readonly string[] {
  const { text } = say(draft, 'therapist')
  const { maximum } = loadFactsOf(planOf(draft.document), ladder, draft.content)
  const rungs = loadedRungs(draft, ladder)
  if (rungs.length === 0) return []
  const direction = text(`common.ladder.${ladder}`)
  const title = maximum === null ? text('loads.unmeasured', { direction }) : text('loads.measured', { direction, newtons: maximum.forceN, moment: maximum.momentNm })
  return [title, ...rungs.flatMap(({ exercise, tool }) => rungLines(draft, ladder, exercise, tool)), ...estimateLines(draft, ladder)]
}

interface LoadedExercise {
  readonly exercise: Exercise
  readonly tool: Tool
}

/** The loaded exercises of the client's own chain. */
function loadedRungs(draft: Draft<Chart>, ladder: LadderId): readonly LoadedExercise[] {
  const ids = new Set(chainOf(planOf(draft.document), ladder, draft.content).places.map((place) => place.exercise))
  return [...ids].flatMap((id) => {
    const exercise = exerciseOf(draft.content, id)
    return exercise.work.kind === 'repetitions' ? [{ exercise, tool: exercise.work.load }] : []
  })
}

function rungLines(draft: Draft<Chart>, ladder: LadderId, { id, posture }: Exercise, tool: Tool): readonly string[] {
  const plan = planOf(draft.document)
  const { text, words } = say(draft, 'therapist')
  const { maximum, assumptions, targetKg } = loadFactsOf(plan, ladder, draft.content)
  const { equipment } = plan
  const protocol = protocolOf(plan, draft.content)
  const name = text('loads.exercise', { exercise: words.exerciseName(id) })
  const fit = tool === 'band' ? fitLines(draft, bandFit({ ladder, posture, equipment, protocol, maximum, assumptions, targetKg, reachedNm: null })) : []
  const entered = chainOf(plan, ladder, draft.content).places.find((place) => place.exercise === id && place.isEntry)
  const entry = entered === undefined ? [] : [text('loads.entered', { load: describeLoad(words, entered.dose.load) })]
  if (maximum === null) return [name, ...entry, ...fit]
  const table = loadTable({ ladder, tool, posture, protocol, maximum, assumptions }, equipment)
  const head = text('loads.head', { percent: percentOf(table.headShareOfMaximum) })
  return [name, ...entry, ...(posture === null ? [] : [head]), ...table.rows.map((row) => rowLine(draft, row, tool)), ...fit]
}

function rowLine(draft: Draft<Chart>, { purpose, share, external, owned }: LoadRow, tool: Tool): string {
  const { text, words } = say(draft, 'therapist')
  const values = { purpose: text(`loads.purpose.${purpose}`), percent: percentOf(share) }
  if (external === null) return text('loads.row-head-alone', values)
  const ownedText = owned === null ? text('loads.nothing-owned') : describeLoad(words, owned)
  return text('loads.row', { ...values, external: text(`loads.amount.${tool}`, { value: external }), owned: ownedText })
}

function fitLines(draft: Draft<Chart>, fit: BandFit): readonly string[] {
  const { text } = say(draft, 'therapist')
  if (fit.kind === 'serves') return []
  const { kind, ...numbers } = fit
  const known = Object.entries(numbers).map(([key, value]) => [key, value ?? text('common.not-known')])
  return [text(`loads.band.${kind}`, Object.fromEntries(known) as Readonly<Record<string, string | number>>)]
}

/** From the heaviest set of the session that waits for its decision, where repetitions and reserve say enough. */
function estimateLines(draft: Draft<Chart>, ladder: LadderId): readonly string[] {
  const { text, words } = say(draft, 'therapist')
  const pending = draft.document.pending?.ladders.find((one) => one.ladder === ladder)
  const { load, reps } = pending?.place.dose ?? { load: { kind: 'none' as const }, reps: 0 }
  const reserves = pending?.sets.flatMap(({ report }) => (report?.finished === true && report.reserve !== null ? [report.reserve] : [])) ?? []
  if (!isExternal(load) || reserves.length === 0) return []
  const reserve = Math.max(...reserves)
  const estimate = estimateMaximum({ load: load.kind === 'mass' ? load.kilograms : load.newtons, reps, reserve })
  if (estimate.kind === 'none') return [text(`loads.no-estimate.${estimate.reason}`, { count: estimate.toFailure })]
  const unit = load.kind === 'mass' ? 'harness' : 'band'
  const amount = (value: number): string => text(`loads.amount.${unit}`, { value })
  const values = { load: describeLoad(words, load), reps, reserve, value: amount(estimate.value), low: amount(estimate.low), high: amount(estimate.high) }
  return [text('loads.estimate', values)]
}

function isExternal(load: Load): load is Extract<Load, { kind: 'mass' | 'force' }> {
  return load.kind === 'mass' || load.kind === 'force'
}

function percentOf(share: number): number {
  return Math.round(share * 100)
}
