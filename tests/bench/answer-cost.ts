// What an answer costs on its whole way through the step, against nothing but the library's transition of the same machine.
import { transition } from 'xstate'
import { flows } from '#flows/registry.ts'
import type { Chart } from '#src/chart/chart.ts'
import { clientParty } from '#src/chart/client/client-party.ts'
import { Draft } from '#src/chart/draft.ts'
import type { Event } from '#src/chart/event.ts'
import { createStep, type Step } from '#src/chart/step.ts'
import { VirtualClient } from '#src/commands/rehearse/virtual-client.ts'
import { VirtualClinic } from '#src/commands/rehearse/virtual-clinic.ts'
import type { Content } from '#src/content/content.ts'
import { brandAs, type DocumentId, type Instant } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import { atMost, medianOf, type Figure } from './figure.ts'

/** Issue 3, "Speed and memory". */
const mostTransitions = 4
const batch = 20
const warmUpRounds = 60
const rounds = 250
/** A clock that stood still would make new timers look like copies of old ones. */
const secondsBetween = 20

/** A button of a session's question, pressed. */
export interface Press {
  readonly state: string
  readonly value: string
  readonly chart: Chart
  readonly event: Event
  readonly at: Instant
}

/** The button pressed for every question of a session that goes well. */
const buttons: Readonly<Record<string, string>> = {
  ready: 'ready',
  screen: 'none',
  'pain-now': '1',
  'warm-up': 'done',
  set: 'done',
  pain: '1',
  control: 'steady',
  reserve: '3',
  effort: '3',
}

export function measureAnswers(plan: Plan, content: Content): readonly Figure[] {
  const step = createStep(content, flows)
  const presses = playSession(plan, content, step)
  const measured = presses.map((press) => ({ press, whole: () => step(press.chart, press.event, press.at), bare: bareTransition(press, content), ratios: [] as number[] }))
  // By turns, so that whatever else the machine does meets both alike.
  for (let round = 0; round < warmUpRounds + rounds; round += 1) {
    for (const { whole, bare, ratios } of measured) {
      const ratio = timeOf(whole) / timeOf(bare)
      if (round >= warmUpRounds) ratios.push(ratio)
    }
  }
  const states = [...new Set(presses.map(({ state }) => state))]
  const ofState = (state: string): number => medianOf(measured.filter(({ press }) => press.state === state).flatMap(({ ratios }) => ratios))
  return [
    atMost('an answer through the step, in bare transitions: median', medianOf(measured.map(({ ratios }) => medianOf(ratios))), mostTransitions),
    ...states.map((state) => atMost(`an answer through the step, in bare transitions: ${state}`, ofState(state), null)),
    atMost('parts of the document copied though the answer does not change them', copiedParts(presses, step), 0),
  ]
}

export function playSession(plan: Plan, content: Content, step: Step): readonly Press[] {
  const chartId = brandAs<DocumentId>('chart-000000000000')
  const presses: Press[] = []
  let isRecording = false
  const recording: Step = (document, event, at) => {
    const state = document.kind === 'chart' ? document.conversations.at(-1)?.state : undefined
    if (isRecording && document.kind === 'chart' && state !== undefined) presses.push({ state, value: buttons[state] ?? '', chart: document, event, at })
    return step(document, event, at)
  }
  const clinic = new VirtualClinic(recording, content, Date.parse('2026-01-05T18:00:00Z'))
  clinic.submit(chartId, { kind: 'told', from: chartId, told: { kind: 'enrolled', plan, therapist: null, second: null } })
  const client = new VirtualClient(clinic, chartId, plan.usualPain)
  client.join()
  client.write('ready')
  isRecording = true
  for (let top = clinic.chart(chartId).conversations.at(-1); top?.flow === 'session'; top = clinic.chart(chartId).conversations.at(-1)) {
    const button = buttons[top.state]
    if (button === undefined) throw new RangeError(`no button for ${top.state}`)
    clinic.advanceTo(clinic.now + secondsBetween * 1000)
    client.press(button)
  }
  return presses
}

/** The library's own transition, from a snapshot that is already there. */
function bareTransition({ state, value, chart, event, at }: Press, content: Content): () => unknown {
  const machine = flows.get('session')?.machine
  const conversation = chart.conversations.at(-1)
  if (machine === undefined || conversation === undefined) throw new RangeError('no session is open')
  const context = clientParty.facts(new Draft(chart, event, at, { content, flows }), conversation)
  const snapshot = machine.resolveState({ value: state, context })
  const answer = { type: 'answer', value: /^\d+$/.test(value) ? Number(value) : value }
  return () => transition(machine, snapshot, answer)
}

function timeOf(work: () => unknown): number {
  const start = process.hrtime.bigint()
  for (let count = 0; count < batch; count += 1) work()
  return Number(process.hrtime.bigint() - start)
}

/** A changed document shares with the one before whatever the answer leaves alone: nothing is copied on the way. */
function copiedParts(presses: readonly Press[], step: Step): number {
  return presses.reduce((sum, { chart, event, at }) => sum + copiesIn(chart, step(chart, event, at).document, new Set(objectsIn(chart))), 0)
}

type PlainObject = Readonly<Record<string, unknown>>

/** Objects without objects in them that equal what stood in their place before, and yet are none of those before. */
function copiesIn(before: unknown, after: unknown, known: ReadonlySet<PlainObject>): number {
  if (!isObject(before) || !isObject(after) || known.has(after)) return 0
  const inner = Object.keys(before).reduce((sum, key) => sum + copiesIn(before[key], after[key], known), 0)
  const isInnermost = Object.keys(before).length > 0 && !Object.values(before).some(isObject)
  return inner + (isInnermost && JSON.stringify(before) === JSON.stringify(after) ? 1 : 0)
}

function objectsIn(value: unknown): readonly PlainObject[] {
  return isObject(value) ? [value, ...Object.values(value).flatMap(objectsIn)] : []
}

function isObject(value: unknown): value is PlainObject {
  return typeof value === 'object' && value !== null
}
