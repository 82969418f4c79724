// Goes on with a stored chart or desk: its timers fire, and whatever it asks is answered as well as can be.
import { asksOf, questionOf, stepOn, topOf, type Speaking, type Standing } from '../../flows/walk.ts'
import { openStore } from '#src/app.ts'
import { readConfig } from '#src/config.ts'
import { headOf } from '#src/chart/head.ts'
import type { Chart } from '#src/chart/chart.ts'
import type { Dose } from '#src/domain/dose.ts'
import type { Direction } from '#src/domain/direction.ts'
import type { DocumentId, Instant } from '#src/domain/identifier.ts'

/** What a client was asked to do. */
export interface Told {
  readonly direction: Direction
  readonly rung: number
  readonly dose: Dose
}

const contact = { channel: 'walk', address: 'somebody' }
const invitation = { token: 'token', link: 'https://chat.example/token' }
const dayMs = 24 * 3_600_000
/** More answers in a row than any conversation has questions. */
const mostAnswers = 60

export function standingAt(document: Speaking, at: Instant): Standing {
  return { document, at, buttons: [], said: [], tells: 0, taken: [] }
}

/** By what is asked; other questions are answered by their kind. */
const goodAnswers: Readonly<Record<string, string>> = {
  'session.ready': 'ready',
  'session.not-today-why': 'no-time',
  'session.screen': 'none',
  'session.warm-up': 'done',
  'session.set': 'done',
  'symptom.ask': 'none',
  'symptom.which': 'none',
  'symptom.confirm': 'no',
  'symptom.known': 'usual',
  'called.called': 'called',
}

function goodAnswer(standing: Standing): string | null {
  const known = goodAnswers[String(asksOf(standing))]
  if (known !== undefined) return known
  const kind = questionOf(standing)?.kind
  if (kind === 'pain') return '1'
  if (kind === 'control') return 'steady'
  if (kind === 'reserve') return '3'
  return null
}

function press(standing: Standing, value: string): Standing {
  return stepOn(standing, { kind: 'press', from: contact, invitation, data: `p:${standing.document.prompt?.number}:${value}` })
}

/** Answers for as long as something is asked that has a good answer. */
export function answerWell(standing: Standing): Standing {
  let now = standing
  for (let count = 0; count < mostAnswers; count += 1) {
    const answer = goodAnswer(now)
    if (answer === null || topOf(now) === undefined) break
    now = press(now, answer)
  }
  return now
}

function sessionOf(standing: Standing): Chart['session'] {
  return standing.document.kind === 'chart' ? standing.document.session : null
}

/** What the next session asks that begins within ten days, if any does; one under way is brought to its end first. */
export function toldNext(start: Standing): readonly Told[] {
  const begun = sessionOf(start)?.id
  const until = start.at + 10 * dayMs
  let now = answerWell(start)
  if (now.document.kind === 'chart' && now.document.lock !== null) return []
  for (let dueAt = headOf(now.document).nextDueAt; dueAt !== null && dueAt <= until; dueAt = headOf(now.document).nextDueAt) {
    now = stepOn({ ...now, at: Math.max(now.at, dueAt) }, { kind: 'wake' })
    const answered = answerUntilPrescribed(now, begun)
    if ('told' in answered) return answered.told
    now = answered.now
  }
  return []
}

function answerUntilPrescribed(standing: Standing, begun: string | undefined): { readonly told: readonly Told[] } | { readonly now: Standing } {
  let now = standing
  for (let count = 0; count < mostAnswers; count += 1) {
    const session = sessionOf(now)
    if (session !== null && session.id !== begun && session.prescribed.length > 0) {
      return { told: session.prescribed.map(({ direction, place, dose }) => ({ direction, rung: place.rung, dose })) }
    }
    const answer = goodAnswer(now)
    if (answer === null || topOf(now) === undefined) break
    now = press(now, answer)
  }
  return { now }
}

/** What the version that runs would ask for next of a chart in a folder. */
export async function nextPrescription(folder: string, id: DocumentId, at: Instant): Promise<readonly Told[]> {
  const store = openStore(readConfig({ DATA_DIR: folder }))
  await store.open()
  const chart = await store.read<Chart>(id)
  await store.close()
  return chart === null ? [] : toldNext(standingAt(chart, at))
}
