// Ten thousand hostile messages and presses to one flow, beginning at each of its questions in turn.
import fc from 'fast-check'
import type { Flow } from '#src/conversation/flow.ts'
import { runs, seed } from '../../properties/runs.ts'
import { asksOf, isDeadEnd, type Standing } from '../walk.ts'
import { walked } from '../walked.ts'
import { askingStatesOf } from '../ways.ts'
import { lostBy } from './kept.ts'
import { anyOther, anySaid, contact, invitation, type Move } from './moves.ts'
import { happeningOf, moveOn, stepOn, type Playing } from './play.ts'
import { emergencyWords } from './texts.ts'

/** As many as every flow is put to; a nightly run multiplies them. */
export const wanted = runs(10_000)
/** Of what is said, so much is played from one beginning before it is begun anew: a document that only grew would hide little. */
const longestEpisode = 30
/** Moves after the conversation has been left. */
const afterwards = 1
const movesBetweenOthers = 12
const movesBetweenEmergencies = 120
const standingsAState = 4

const said = fc.sample(anySaid, { seed, numRuns: Math.min(wanted, 10_000) })
const others = fc.sample(anyOther, { seed, numRuns: 1000 })

export interface Played {
  /** Messages and presses that came while the flow was open. */
  readonly counted: number
  readonly emergencies: number
  readonly states: number
}

export function playFlow(flow: Flow): Played {
  const states = askingStatesOf(flow)
  const each = Math.ceil(wanted / states.length)
  let [counted, emergencies] = [0, 0]
  states.forEach((state, place) => {
    const begins = beginningsOf(`${flow.id}.${state}`)
    for (let episode = 0, left = each; left > 0; episode += 1) {
      const begin = begins[episode % begins.length]
      if (begin === undefined) throw new Error(`nothing begins at ${flow.id}.${state}`)
      const from = (place * each + (each - left)) % said.length
      const played = playEpisode({ flow: flow.id, state, begin, from, most: Math.min(left, longestEpisode) })
      counted += played.counted
      emergencies += played.emergencies
      left -= Math.max(1, played.counted)
    }
  })
  return { counted, emergencies, states: states.length }
}

function beginningsOf(asks: string): readonly Playing[] {
  const all = walked.filter((standing) => asksOf(standing) === asks)
  const step = Math.max(1, Math.floor(all.length / standingsAState))
  return all.filter((_, index) => index % step === 0).slice(0, standingsAState)
}

interface Episode {
  readonly flow: string
  readonly state: string
  readonly begin: Playing
  /** The first of the moves. */
  readonly from: number
  readonly most: number
}

function playEpisode({ flow, state, begin, from, most }: Episode): { readonly counted: number; readonly emergencies: number } {
  let playing = begin
  let [counted, emergencies, after] = [0, 0, 0]
  for (let index = from; counted < most && after <= afterwards; index += 1) {
    const isOpen = playing.document.conversations.some((one) => one.flow === flow)
    const move = said[index % said.length] as Move
    if (isOpen) counted += 1
    else after += 1
    playing = attempt(playing, move, `${flow}.${state}, ${index - from + 1} after the beginning`)
    if (index % movesBetweenOthers === 0) playing = attempt(playing, others[(index / movesBetweenOthers) % others.length] as Move, `${flow}.${state}, from the world`)
    if (index % movesBetweenEmergencies === 0 && playing.document.kind === 'chart') {
      checkEmergency(playing, emergencyWords[(index / movesBetweenEmergencies) % emergencyWords.length] as string, `${flow}.${state}`)
      emergencies += 1
    }
  }
  return { counted, emergencies }
}

/** One move, with the laws; an error says where, and what was moved. */
function attempt(before: Playing, move: Move, where: string): Playing {
  const fail = (reason: string): never => {
    throw new Error(`${where} (asked: ${asksOf(before as Standing)}): ${reason} by ${JSON.stringify(move).slice(0, 300)}`)
  }
  let after: Playing
  try {
    after = moveOn(before, move)
  } catch (error) {
    throw new Error(`${where} (asked: ${asksOf(before as Standing)}): ${String(error)} by ${JSON.stringify(move).slice(0, 300)}`, { cause: error })
  }
  const happening = move.kind === 'wait' ? null : happeningOf(before, move)
  const lost = lostBy(before.document, after.document, happening)
  if (lost.length > 0) fail(`lost ${lost.join(', ')}`)
  if (after.document.contact !== null && isDeadEnd(after as Standing)) fail('a dead end')
  if (happening?.kind === 'message' && !happening.isEdit && after.said.length + after.tells === 0) fail('silence')
  if (happening?.kind === 'press') {
    if (after.said.length + after.tells === 0 && after.document === before.document) fail('a press without an answer')
    if (!isOwn(before, happening.data) && before.document.prompt !== null && after.document.conversations !== before.document.conversations) fail('a change by a button of another question')
  }
  return after
}

/** The press is of the question that is open. */
function isOwn({ document }: Playing, data: string): boolean {
  return data.startsWith(`p:${document.prompt?.number}:`)
}

/** On a branch of its own: what is played goes on without it. */
function checkEmergency(playing: Playing, text: string, where: string): void {
  if (playing.document.kind !== 'chart') return
  const { document } = stepOn(playing, { kind: 'message', from: contact, text, invitation, isEdit: false })
  if (document.kind !== 'chart' || document.lock?.level !== 'emergency') throw new Error(`${where} (asked: ${asksOf(playing as Standing)}): no lock by ${JSON.stringify(text)}`)
}
