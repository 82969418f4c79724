// Puts moves to a document as fast as a document can take them, with what must hold of any step.
import { isDeepStrictEqual } from 'node:util'
import { flows } from '#flows/registry.ts'
import type { Event } from '#src/chart/event.ts'
import { headOf } from '#src/chart/head.ts'
import { createStep } from '#src/chart/step.ts'
import type { Happening } from '#src/commands/rehearse/virtual-clinic.ts'
import { brandAs, type EventId, type Instant } from '#src/domain/identifier.ts'
import type { Effect } from '#src/domain/message.ts'
import { content } from '#tests/support/sample-chain.ts'
import type { Speaking } from '../walk.ts'
import { contact, invitation, type Move } from './moves.ts'

const step = createStep(content, flows)

/** A document and what its person sees. */
export interface Playing {
  readonly document: Speaking
  readonly at: Instant
  /** The data of the open question's buttons. */
  readonly buttons: readonly string[]
  readonly said: readonly string[]
  readonly tells: number
}

let events = 0

export function stepOn({ document, at, buttons }: Playing, happening: Happening): Playing {
  events += 1
  const event = { ...happening, id: brandAs<EventId>(`hostile-${events}`) } as Event
  const { document: next, entries, effects } = step(document, event, at)
  checkStorable([entries, effects, next.kind === 'clinic' ? [] : next.conversations])
  // The whole document is by far the larger part. It gathers, so that what JSON would lose is still there a few events later.
  if (events % 25 === 0) checkStorable(next)
  const sent = effects.filter((effect) => effect.kind === 'send')
  checkMessages(sent)
  const speaking = next as Speaking
  const prompt = sent.find((effect) => effect.id === speaking.prompt?.effect)
  const shown = prompt?.message.buttons.flat().map((button) => button.data) ?? buttons
  return {
    document: speaking,
    at,
    buttons: speaking.prompt === null ? [] : shown,
    said: sent.map((effect) => effect.message.text),
    tells: effects.filter((effect) => effect.kind === 'tell').length,
  }
}

/** What a move is for this document: a press carries the data that its person's screen would send. */
export function happeningOf({ document, buttons }: Playing, move: Exclude<Move, { kind: 'wait' }>): Happening {
  if (move.kind === 'open-button') return { kind: 'press', from: contact, invitation, data: buttons[move.nth % Math.max(1, buttons.length)] ?? 'p:0:none' }
  if (move.kind === 'value') return { kind: 'press', from: contact, invitation, data: `p:${(document.prompt?.number ?? 0) - move.earlier}:${move.value}` }
  return move
}

export function moveOn(playing: Playing, move: Move): Playing {
  return move.kind === 'wait' ? waitIn(playing, move.minutes) : stepOn(playing, happeningOf(playing, move))
}

/** An alert that nobody acknowledges is sent again for days; the first of them show as much as all. */
const mostWakeUps = 12

/** Every timer at its own instant, as far as a dozen of them. */
export function waitIn(playing: Playing, minutes: number): Playing {
  const until = playing.at + minutes * 60_000
  let now = playing
  for (let count = 0; count < mostWakeUps; count += 1) {
    const dueAt = headOf(now.document).nextDueAt
    if (dueAt === null || dueAt > until) break
    now = stepOn({ ...now, at: Math.max(now.at, dueAt) }, { kind: 'wake' })
  }
  return { ...now, at: until }
}

function checkStorable(value: unknown): void {
  if (!isDeepStrictEqual(JSON.parse(JSON.stringify(value)), value)) throw new Error('what a step gives does not survive JSON')
}

/** The Bot API's limits for button data (1 to 64 bytes), kept for every network; and no message without words. */
function checkMessages(sent: readonly Extract<Effect, { kind: 'send' }>[]): void {
  const sizes = sent.flatMap(({ message }) => message.buttons.flat()).map(({ data }) => Buffer.byteLength(data, 'utf8'))
  if (sizes.some((size) => size < 1 || size > 64)) throw new Error('a button has data outside 1 to 64 bytes')
  if (sent.some(({ message }) => message.text.trim() === '')) throw new Error('an empty message')
}
