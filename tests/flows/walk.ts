// Goes through a document's conversations answer by answer, from one open question to every other that can be reached.
import { isDeepStrictEqual } from 'node:util'
import { flows } from '#flows/registry.ts'
import type { Event } from '#src/chart/event.ts'
import type { AnyDocument } from '#src/chart/head.ts'
import { createStep } from '#src/chart/step.ts'
import type { Conversation } from '#src/conversation/flow.ts'
import type { Question, QuestionKind } from '#src/conversation/question.ts'
import { metaOf } from '#src/conversation/run-flow.ts'
import type { Happening } from '#src/commands/rehearse/virtual-clinic.ts'
import { brandAs, type EventId, type Instant } from '#src/domain/identifier.ts'
import type { Effect } from '#src/domain/message.ts'
import type { Taken } from '#tests/support/clinic-rig.ts'
import { content } from '#tests/support/sample-chain.ts'
import { countedFlows } from './count-ways.ts'

const step = createStep(content, countedFlows)
const from = { channel: 'walk', address: 'somebody' }
const invitation = { token: 'token', link: 'https://chat.example/token' }

export type Speaking = Exclude<AnyDocument, { kind: 'clinic' }>

/** A document at one of its questions, and what its person sees. */
export interface Standing {
  readonly document: Speaking
  readonly at: Instant
  /** The data of the open question's buttons. */
  readonly buttons: readonly string[]
  /** The texts of what was sent on the way here, in one step. */
  readonly said: readonly string[]
  /** How much was told to other documents meanwhile. */
  readonly tells: number
  /** Everything that led here. */
  readonly taken: readonly Taken[]
}

let events = 0

/** One step, checked for everything that must hold of any step. */
export function stepOn({ document, at, buttons, taken }: Standing, happening: Happening): Standing {
  events += 1
  const event = { ...happening, id: brandAs<EventId>(`walk-${events}`) } as Event
  const { document: next, entries, effects } = step(document, event, at)
  checkStorable({ next, entries, effects })
  const sent = effects.filter((effect) => effect.kind === 'send')
  checkButtons(sent)
  const speaking = next as Speaking
  const tells = effects.filter((effect) => effect.kind === 'tell').length
  const prompt = sent.find((effect) => effect.id === speaking.prompt?.effect)
  const shown = prompt?.message.buttons.flat().map((button) => button.data) ?? buttons
  const said = sent.map((effect) => effect.message.text)
  return { document: speaking, at, buttons: speaking.prompt === null ? [] : shown, said, tells, taken: [...taken, { to: document.id, event, at }] }
}

export function write(standing: Standing, text: string): Standing {
  return stepOn(standing, { kind: 'message', from, text, invitation, isEdit: false })
}

export function press(standing: Standing, data: string): Standing {
  return stepOn(standing, { kind: 'press', from, data, invitation })
}

export function topOf({ document }: Standing): Conversation | undefined {
  return document.conversations.at(-1)
}

/** `flow.state` of the open question; null where nothing is open. */
export function asksOf(standing: Standing): string | null {
  const top = topOf(standing)
  return top ? `${top.flow}.${top.state}` : null
}

export function questionOf(standing: Standing): Question | null {
  const top = topOf(standing)
  const flow = top && flows.get(top.flow)
  const meta = top && flow ? metaOf(flow, top.state) : null
  return meta !== null && 'asks' in meta ? meta.asks : null
}

/** Either a question is open and was shown, or no conversation is left, and no session without one. */
export function isDeadEnd(standing: Standing): boolean {
  const { document } = standing
  const { conversations, prompt } = document
  const hasLostSession = document.kind === 'chart' && document.session !== null && !conversations.some(({ flow }) => flow === 'session')
  return hasLostSession || (conversations.length === 0 ? prompt !== null : prompt === null || questionOf(standing) === null)
}

/** Typed answers that lead on, beside every button of the question. */
const typedAnswers: Readonly<Partial<Record<QuestionKind, readonly string[]>>> = {
  pain: ['0', '1', '4', '6', '9'],
  'choice-or-pain': ['1', '7'],
  text: ['Noor Lindqvist'],
  number: ['1', '15', '17', '41', '70', '30'],
  numbers: ['0.25 0.5 1'],
  phone: ['112'],
  zone: ['Europe/Dublin'],
  'wall-time': ['18:00', '23:00'],
  'time-span': ['21:00-08:00'],
  weekdays: ['mon, wed'],
  date: ['2026-01-20', '2026-01-12', '2026-01-19', '2026-01-01'],
  'blood-pressure': ['120/80', '185/115'],
  band: ['light: 10 cm 8 N, 30 cm 20 N'],
  activity: ['look over my shoulder'],
  'measured-force': ['112, 118 N', '0 N'],
  'known-sign': ['tingling, left, forearm and thumb, 4'],
  'item-scores': ['2 1 3 0 2 - 1 2 4 1'],
}

/** Every standing reached from these by any button or typed answer; one of each shape. */
export function walk(starts: readonly Standing[]): readonly Standing[] {
  const found = new Map<string, Standing>()
  const queue = [...starts]
  for (let standing = queue.shift(); standing !== undefined; standing = queue.shift()) {
    if (topOf(standing) === undefined || found.has(shapeOf(standing))) continue
    found.set(shapeOf(standing), standing)
    queue.push(...answersFrom(standing))
  }
  return [...found.values()]
}

/** What was answered once is not answered again: a step gives the same for the same. */
const answered = new WeakMap<Standing, readonly Standing[]>()

export function answersFrom(standing: Standing): readonly Standing[] {
  const known = answered.get(standing) ?? answer(standing)
  answered.set(standing, known)
  return known
}

function answer(standing: Standing): readonly Standing[] {
  const kind = questionOf(standing)?.kind ?? 'choice'
  const typed = typedAnswers[kind] ?? []
  // Of several, one and then the end: every subset would be walked otherwise.
  const hasChosen = kind === 'several' && topOf(standing)?.data[chosenKey] !== undefined
  const pressed = hasChosen ? standing.buttons.slice(-1) : standing.buttons
  const leaving = standing.document.kind === 'chart' ? ['stop', 'not today', 'something is wrong', 'sorry, I meant 3'] : ['stop', 'back']
  return [...pressed.map((data) => press(standing, data)), ...[...typed, ...leaving].map((text) => write(standing, text))]
}

const chosenKey = '(chosen)'

const weekMs = 7 * 24 * 3_600_000

/** What makes two standings different enough to be walked from both. */
function shapeOf({ document, at }: Standing): string {
  const stack = document.conversations.map(({ flow, state, data }) => `${flow}.${state}(${String(data[chosenKey] ?? '')})`)
  if (document.kind === 'desk') return [...stack, gathered(document.conversations.at(-1)), document.colleagues.length, document.away?.from].join(' ')
  const { session, pending, lock, outcomes, pause } = document
  // What is due, and whether anything is, depends on the time since the therapist looked.
  const asksByTime = document.conversations.some(({ flow }) => flow === 'weekly' || flow === 'session')
  const weeks = asksByTime ? Math.floor((at - document.reviewedAt) / weekMs) : null
  const inSession = [session?.sets.length, session?.before, session?.isOver]
  return [...stack, weeks, pause?.reason, lock?.level, pending === null, ...inSession, outcomes.activities.length].join(' ')
}

/** Of what a desk's conversation has gathered, that which decides which questions follow. */
function gathered(top: Conversation | undefined): string {
  const read = top && deciding[`${top.flow}.${top.state}`]
  return read ? String(read(top.data)) : lengthsOf(top?.data ?? {})
}

const ageOf = (data: Conversation['data']): unknown => data.age
const deciding: Readonly<Record<string, (data: Conversation['data']) => unknown>> = {
  // While it is asked who may be enrolled.
  'enrolment.blood-pressure': ageOf,
  'enrolment.conditions': ageOf,
  'enrolment.surgeon-clearance': ageOf,
  'enrolment.guardian-consent': ageOf,
  'enrolment.rung': (data) => lengthOf(data['ladder-plans']),
  // Up to which rung decides whether a maximum is asked for.
  'enrolment.shown': (data) => `${lengthOf(data['ladder-plans'])} ${String(data['max-rung'])}`,
  // What makes a plan that cannot be used.
  'enrolment.review': (data) => JSON.stringify([data['ladder-plans'], data.time]),
}

/** How much there is to choose from, and whether something is measured already. */
function lengthsOf({ directions, offers, taken }: Conversation['data']): string {
  return [lengthOf(directions), lengthOf(offers), Math.min(1, lengthOf(taken))].join(' ')
}

function lengthOf(list: unknown): number {
  return Array.isArray(list) ? list.length : 0
}

function checkStorable(value: unknown): void {
  if (!isDeepStrictEqual(JSON.parse(JSON.stringify(value)), value)) throw new Error('what a step gives does not survive JSON')
}

function checkButtons(sent: readonly Extract<Effect, { kind: 'send' }>[]): void {
  const sizes = sent.flatMap(({ message }) => message.buttons.flat()).map(({ data }) => Buffer.byteLength(data, 'utf8'))
  // The Bot API's limits for button data, kept for every network.
  if (sizes.some((size) => size < 1 || size > 64)) throw new Error('a button has data outside 1 to 64 bytes')
}
