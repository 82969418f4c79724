// Whatever anybody sends, in any order: no step throws, nothing answered is lost, nobody is left without a question.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Chart, OpenSession } from '#src/chart/chart.ts'
import { newClinic } from '#src/chart/clinic.ts'
import { actKinds, type Told } from '#src/chart/event.ts'
import type { AnyDocument } from '#src/chart/head.ts'
import { headOf } from '#src/chart/head.ts'
import type { Happening } from '#src/commands/rehearse/virtual-clinic.ts'
import { brandAs, type DocumentId } from '#src/domain/identifier.ts'
import { runs, seed, timeoutMs } from '../properties/runs.ts'
import { chartId, colleagues } from '#tests/support/joined-clinic.ts'
import { chainFor, extensionPlan } from '#tests/support/sample-chain.ts'
import { allStarts } from './starts.ts'
import { isDeadEnd, stepOn, type Standing } from './walk.ts'

/** Without the harness, and to be started a rung lower. */
const otherPlan = { ...extensionPlan, equipment: { ...extensionPlan.equipment, harnessKg: null }, ladders: extensionPlan.ladders.map((own) => ({ ...own, rung: 1 })) }

const contact = { channel: 'walk', address: 'somebody' }
const invitation = { token: 'token', link: 'https://chat.example/token' }

const sayings = [
  '0', '3', '7', '10', '11', '-1', 'no', 'yes', 'maybe', 'done', 'ready', 'later', 'skip', 'none', 'stop', 'help', 'why', 'not today',
  'sorry, I meant 7', 'sorry, I meant 0', 'my arm went numb', 'half my face is drooping', 'I have a fever', 'is it normal that my hand tingles?',
  'as usual', 'worse', 'I cannot call', 'something is wrong', 'enrol', 'clients', 'invite', 'back', '18:00', '22:30', 'Europe/Dublin',
  'mon, wed', '21:00-08:00', 'score', 'measure', '112, 118 N', '2 1 3 0 2 - 1 2 4 1', '7/10', 'better', '185/115', 'light: 10 cm 8 N, 30 cm 20 N', '17', '2', '',
]

const anyText = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...sayings) },
  { weight: 2, arbitrary: fc.string({ unit: 'binary', maxLength: 60 }) },
  { weight: 1, arbitrary: fc.string({ unit: 'grapheme', maxLength: 60 }) },
  { weight: 1, arbitrary: fc.constantFrom('{number} {', "it's '{{'", '__proto__', '9'.repeat(400), '🙂'.repeat(500), '\u0000\u202e', 'p:1:yes', '<b>') },
)

/** A press of the k-th button that is open, or of anything else. */
type Move = { readonly kind: 'open-button'; readonly nth: number } | { readonly kind: 'wait'; readonly minutes: number } | Happening

const anyPress = fc.oneof(
  { weight: 4, arbitrary: fc.record({ kind: fc.constant('open-button' as const), nth: fc.nat(12) }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('press' as const), from: fc.constant(contact), invitation: fc.constant(invitation), data: fc.string({ maxLength: 64 }) }) },
  {
    weight: 1,
    arbitrary: fc
      .tuple(fc.nat(40), fc.constantFrom('yes', 'none', 'done', '3', 'steady', 'limbs', 'constructor', ''))
      .map(([number, value]) => ({ kind: 'press' as const, from: contact, invitation, data: `p:${number}:${value}` })),
  },
)

const anyMessage = fc.record({
  kind: fc.constant('message' as const),
  from: fc.constant(contact),
  invitation: fc.constant(invitation),
  text: anyText,
  isEdit: fc.boolean().map((edit) => edit && true),
})

const anyTold: fc.Arbitrary<Told> = fc.oneof(
  fc.constant<Told>({ kind: 'joined', contact }),
  fc.constant<Told>({ kind: 'enrolled', plan: extensionPlan, therapist: colleagues.maren, second: null }),
  fc.constant<Told>({ kind: 'cleared', by: colleagues.maren, assessed: 'seen', reason: 'examined', dose: 'lowest' }),
  fc.constant<Told>({ kind: 'clear', chart: chartId, client: 'Orla Tiernan', dose: 'a dose' }),
  fc.constant<Told>({ kind: 'measure', chart: chartId, client: 'Orla Tiernan', directions: ['extension', 'flexion'] }),
  fc.constant<Told>({ kind: 'measured', by: colleagues.maren, measurements: [{ direction: 'extension', force: 60, unit: 'N', leverCm: null, on: null, trials: [60] }] }),
  fc.constant<Told>({ kind: 'amended', plan: otherPlan, by: null, reason: 'seen today', therapist: null, second: null }),
  fc.constant<Told>({ kind: 'placed', by: colleagues.maren, ladder: 'extension', place: chainFor(extensionPlan).places[0]!, reason: 'flare-up' }),
  fc.constant<Told>({ kind: 'scored', by: colleagues.maren, items: [2, 1, 3, 0, 2, null, 1, 2, 4, 1] }),
  fc.constant<Told>({ kind: 'score', chart: chartId, client: 'Orla Tiernan', last: null }),
  fc.constant<Told>({ kind: 'opened', contact, card: null }),
  fc.constant<Told>({ kind: 'client', chart: chartId, name: 'Orla Tiernan' }),
  fc.constant<Told>({ kind: 'settled-in', card: colleagues.idris }),
  fc.constant<Told>({ kind: 'invited', digest: 'digest', chart: null, expiresAt: 0 }),
)

const anyOther: fc.Arbitrary<Move> = fc.oneof(
  fc.record({ kind: fc.constant('wait' as const), minutes: fc.constantFrom(1, 5, 10, 60, 600, 1440, 20_000) }),
  fc.constant({ kind: 'unreadable' as const, from: contact }),
  fc.record({ kind: fc.constant('reach' as const), isReachable: fc.boolean() }),
  fc.constant({ kind: 'moved' as const, from: contact, to: contact }),
  fc.constant({ kind: 'group' as const, from: contact }),
  fc.record({ kind: fc.constant('join' as const), from: fc.constant(contact), token: fc.string({ maxLength: 40 }), isKnown: fc.boolean() }),
  fc.record({
    kind: fc.constant('act' as const),
    by: fc.constant({ desk: colleagues.maren.desk, name: 'Maren Holt' }),
    act: fc.constantFrom(...actKinds),
    about: fc.constantFrom('a1', 'a2', 'now', 'rung-3-extension', 'lowest-extension', ''),
    seenRevision: fc.nat(50),
  }),
  anyTold.map((told) => ({ kind: 'told' as const, from: brandAs<DocumentId>('clinic'), told })),
)

const anyMoves = fc.array(
  fc.oneof({ weight: 5, arbitrary: anyMessage as fc.Arbitrary<Move> }, { weight: 4, arbitrary: anyPress as fc.Arbitrary<Move> }, { weight: 2, arbitrary: anyOther }),
  { minLength: 1, maxLength: 25, size: 'max' },
)

function moveOn(standing: Standing, move: Move): Standing {
  if (move.kind === 'wait') return waitIn(standing, move.minutes)
  if (move.kind !== 'open-button') return stepOn(standing, move)
  const data = standing.buttons[move.nth % Math.max(1, standing.buttons.length)] ?? 'p:0:none'
  return stepOn(standing, { kind: 'press', from: contact, data, invitation })
}

/** Every timer at its own instant, as far as a hundred of them. */
function waitIn(standing: Standing, minutes: number): Standing {
  const until = standing.at + minutes * 60_000
  let now = standing
  for (let count = 0; count < 100; count += 1) {
    const dueAt = headOf(now.document).nextDueAt
    if (dueAt === null || dueAt > until) break
    now = stepOn({ ...now, at: Math.max(now.at, dueAt) }, { kind: 'wake' })
  }
  return { ...now, at: until }
}

/** What was answered of a session's sets, the newest may have been corrected. */
function setsAnswered(session: OpenSession): number {
  return session.sets.filter((set) => set.report !== null).length + (session.underWay?.pain == null ? 0 : 1)
}

/** How many set answers a chart still knows of a session; all, once its decision is recorded. */
function setsKnown(chart: Chart, session: OpenSession): number {
  if (chart.session?.id === session.id) return setsAnswered(chart.session)
  const reports = chart.pending?.id === session.id ? chart.pending.ladders.flatMap((one) => one.sets.map((set) => set.report)) : null
  return reports === null ? Infinity : reports.filter((report) => report !== null).length
}

function checkKept(before: AnyDocument, after: AnyDocument): void {
  if (before.kind === 'chart' && after.kind === 'chart' && before.session) {
    expect(setsKnown(after, before.session)).toBeGreaterThanOrEqual(setsAnswered(before.session))
  }
  if (before.kind === 'chart' && after.kind === 'chart') {
    expect(after.alertsRaised).toBeGreaterThanOrEqual(before.alertsRaised)
    // A lock goes by a therapist's clearing alone, and never becomes less.
    expect(before.lock !== null && after.lock === null && !wasCleared(after)).toBe(false)
  }
}

function wasCleared(chart: Chart): boolean {
  return Object.values(chart.states).some((state) => state.sessionsWithoutProgress > 0)
}

describe(`hostile messages and presses (seed ${seed})`, () => {
  it.each(Object.entries(allStarts))('from "%s" on never break a step, lose an answer, lift a lock or end in a dead end', { timeout: timeoutMs }, (_name, start) => {
    const begin = start()
    fc.assert(
      fc.property(anyMoves, (moves) => {
        let standing = begin
        for (const move of moves) {
          const before = standing
          standing = moveOn(before, move)
          checkKept(before.document, standing.document)
          if (standing.document.contact !== null) expect(isDeadEnd(standing)).toBe(false)
        }
      }),
      { seed, numRuns: runs(100) },
    )
  })

  it('at the clinic never break a step, and tell of nobody', { timeout: timeoutMs }, () => {
    fc.assert(
      fc.property(anyMoves, (moves) => {
        let standing = { document: newClinic(), at: 0, buttons: [], said: [], tells: 0 } as unknown as Standing
        for (const move of moves) {
          standing = moveOn(standing, move)
          expect(standing.said.join()).not.toMatch(/Orla|Maren|Idris/)
        }
      }),
      { seed, numRuns: runs(100) },
    )
  })
})

/** Which conversation is open after each move, and which lock is on. */
function seenOnTheWay(begin: Standing, moves: readonly Move[]): readonly string[] {
  let standing = begin
  return moves.flatMap((move) => {
    standing = moveOn(standing, move)
    const { document } = standing
    const lock = document.kind === 'chart' && document.lock ? [`lock ${document.lock.level}`] : []
    return [document.conversations.at(-1)?.flow ?? 'none', ...lock]
  })
}

describe('the moves of the hostile test', () => {
  it('reach a question of every conversation and a lock', () => {
    const sample = fc.sample(anyMoves, { seed, numRuns: 20 })
    const begins = Object.values(allStarts).map((start) => start())
    const seen = new Set(begins.flatMap((begin) => sample.flatMap((moves) => seenOnTheWay(begin, moves))))
    const wanted = ['called', 'clearing', 'consent', 'disability', 'enrolment', 'lock emergency', 'lock urgent', 'measuring', 'morning', 'none', 'placing', 'session', 'settling-in', 'symptom', 'weekly']
    expect([...seen].toSorted()).toEqual(wanted)
  })
})
