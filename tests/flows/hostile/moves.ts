// What can happen to a chart or a desk: words, presses of its own and of other people's buttons, time, and other documents.
import fc from 'fast-check'
import { actKinds, type Told } from '#src/chart/event.ts'
import type { Happening } from '#src/commands/rehearse/virtual-clinic.ts'
import { brandAs, type DocumentId } from '#src/domain/identifier.ts'
import { chartId, colleagues } from '#tests/support/joined-clinic.ts'
import { chainFor, extensionPlan } from '#tests/support/sample-chain.ts'
import { anyText } from './texts.ts'

export const contact = { channel: 'walk', address: 'somebody' }
export const invitation = { token: 'token', link: 'https://chat.example/token' }

export type Move =
  /** The k-th button of the open question. */
  | { readonly kind: 'open-button'; readonly nth: number }
  /** That value under the number of the open question, or of one so many questions earlier or later. */
  | { readonly kind: 'value'; readonly earlier: number; readonly value: string }
  | { readonly kind: 'wait'; readonly minutes: number }
  | Happening

/** Without the harness, and to be started a rung lower. */
const otherPlan = { ...extensionPlan, equipment: { ...extensionPlan.equipment, harnessKg: null }, ladders: extensionPlan.ladders.map((own) => ({ ...own, rung: 1 })) }

const values = ['yes', 'no', 'none', 'done', '3', '10', 'steady', 'lost', 'limbs', 'worse', 'called', 'skip', 'forgotten', 'save', 'enrol', 'again', 'constructor', '__proto__', '', ' ', 'yes:yes', '٣', '🙂']

const press = (data: fc.Arbitrary<string>): fc.Arbitrary<Move> => data.map((text) => ({ kind: 'press' as const, from: contact, invitation, data: text }))

/** Of another chart's, another desk's, no document's. */
const foreignButtons = [
  `m:${chartId}:0:acknowledge:a1`, `m:${chartId}:3:clear:now`, `m:${chartId}:0:look:now`, `m:${chartId}:0:measure:now`, 'm:chart-000000000bad:0:permit:rung-3-extension',
  'm::::', 'm:', 'm', 'd:enrol', 'd:clients', 'd:measure', 'd:duty', 'd:invite', 'd:', 'd:constructor', 'p:', 'p::', 'p:0:yes', 'p:-1:yes', 'p:1e3:yes', 'p:999999999999999999:yes',
  'p:１:yes', 'P:1:yes', ' p:1:yes', 'p:1', 'x', '', 'p:1:'.padEnd(64, 'y'), '\u0000', 'null',
]

const anyPress: fc.Arbitrary<Move> = fc.oneof(
  { weight: 10, arbitrary: fc.record({ kind: fc.constant('open-button' as const), nth: fc.nat(12) }) },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant('value' as const), earlier: fc.constantFrom(0, 0, 0, 1, 2, -1, 40), value: fc.constantFrom(...values) }) },
  { weight: 2, arbitrary: press(fc.constantFrom(...foreignButtons)) },
  { weight: 1, arbitrary: press(fc.string({ unit: 'binary', maxLength: 64 })) },
)

const anyMessage: fc.Arbitrary<Move> = fc
  .tuple(anyText, fc.integer({ min: 0, max: 9 }))
  .map(([text, dice]) => ({ kind: 'message' as const, from: contact, invitation, text, isEdit: dice === 0 }))

/** A person's doing; these are counted. */
export const anySaid: fc.Arbitrary<Move> = fc.oneof({ weight: 5, arbitrary: anyMessage }, { weight: 4, arbitrary: anyPress })

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
  fc.constant<Told>({ kind: 'answer', chart: chartId, client: 'Orla Tiernan' }),
  fc.constant<Told>({ kind: 'answered', by: colleagues.maren, text: 'Use the other band.' }),
  fc.constant<Told>({ kind: 'opened', contact, card: null }),
  fc.constant<Told>({ kind: 'client', chart: chartId, name: 'Orla Tiernan' }),
  fc.constant<Told>({ kind: 'settled-in', card: colleagues.idris }),
  fc.constant<Told>({ kind: 'colleagues', cards: [colleagues.idris] }),
  fc.constant<Told>({ kind: 'invited', digest: 'digest', chart: null, expiresAt: 0 }),
)

/** What comes from the world, not from the person. */
export const anyOther: fc.Arbitrary<Move> = fc.oneof(
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

export const anyMoves = fc.array(fc.oneof({ weight: 9, arbitrary: anySaid }, { weight: 2, arbitrary: anyOther }), { minLength: 1, maxLength: 25, size: 'max' })
