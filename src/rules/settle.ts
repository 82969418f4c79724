// Decides: the next place of a direction once its session and the morning after are known.
// Source: as decide.ts and moves.ts. At the lowest dose of a rung an ease changes nothing: the therapist is told, and the
// second time running the direction rests until they answer (our choice). Reviewed 2026-11.
import { comparePlaces, type Chain } from '#src/domain/chain.ts'
import type { Decision, Reason } from '#src/domain/decision.ts'
import { decide, type Decided, type Deciding } from './decide.ts'
import type { LadderState } from './ladder-state.ts'
import { easeFrom, locate, lowestOfRung, maintainAt, placeAt, progressFrom, stepBackFrom, type PlaceIndex } from './moves.ts'

export interface Settling extends Omit<Deciding, 'runs'> {
  readonly chain: Chain
  readonly state: LadderState
  readonly isRungOpen: (rung: number) => boolean
}

export interface Settled {
  readonly decision: Decision
  readonly state: LadderState
  /** What the therapist is told: routine, and never a lock. */
  readonly concerns: readonly Reason[]
}

interface Move {
  readonly place: PlaceIndex
  readonly reasons: readonly Reason[]
}

export function settle(settling: Settling): Settled {
  const { chain, state, protocol } = settling
  const from = locate(chain, state.place)
  const decided = decide({ ...settling, runs: state.runs })
  const move = moveOf(decided, from, settling)
  const isAtFloor = (decided.kind === 'ease' || decided.kind === 'step back') && from === lowestOfRung(chain, from)
  const keptLowestDose = decided.kind === 'stop' ? state.runs.lowestDose : 0
  const lowestDose = isAtFloor ? state.runs.lowestDose + 1 : keptLowestDose
  const floor: Reason[] = isAtFloor
    ? [{ rule: 'lowest-dose', numbers: { sessions: lowestDose, limit: protocol.running.lowestDose } }]
    : []
  // Nothing raises it again by itself, so that somebody has to know.
  const isLoweredForGood = !protocol.progress.isAutomatic && comparePlaces(placeAt(chain, move.place), placeAt(chain, from)) < 0
  const kept: Reason[] = isLoweredForGood && decided.kind !== 'maintain' ? [{ rule: 'maintained-dose-lowered', numbers: {} }] : []
  const reasons = [...move.reasons, ...floor, ...kept, ...decided.reasons]
  return {
    decision: { kind: decided.kind, reasons },
    state: {
      ...state,
      place: placeAt(chain, move.place),
      runs: { ...decided.runs, lowestDose },
      sessionsWithoutProgress: Math.max(0, state.sessionsWithoutProgress - 1),
      isHeld: state.isHeld || lowestDose >= protocol.running.lowestDose,
    },
    // With a red flag up, nothing routine is told beside it.
    concerns: decided.kind === 'stop' ? [] : reasons.filter(isConcern),
  }
}

/** A run is told when it reaches its limit and each time it has grown by as much again, not after every session. */
function isConcern({ rule, numbers }: Reason): boolean {
  const count = Number(numbers.sessions ?? numbers.mornings ?? 0)
  const isRunDue = rule === 'lowest-dose' || numbers.limit === undefined || count % Number(numbers.limit) === 0
  return toldToTherapist.has(rule) && isRunDue
}

const toldToTherapist: ReadonlySet<Reason['rule']> = new Set([
  'red-two-running',
  'bad-morning-twice',
  'amber-three-running',
  'lowest-dose',
  'rung-below-closed',
  'maintained-dose-lowered',
])

function moveOf(decided: Decided, from: PlaceIndex, { chain, protocol, isRungOpen }: Settling): Move {
  const stepBack = (): Move => {
    const back = stepBackFrom(chain, from, isRungOpen)
    const reasons: Reason[] = back.asks ? [{ rule: 'rung-below-closed', numbers: { rung: placeAt(chain, from).rung } }] : []
    return { place: back.place, reasons }
  }
  const moves: Record<Decision['kind'], () => Move> = {
    progress: () => ({ place: progressFrom(chain, from), reasons: [] }),
    maintain: () => ({ place: decided.isHeldByGate ? from : maintainAt(chain, from), reasons: [] }),
    ease: () => ({ place: easeFrom(chain, from, protocol), reasons: [] }),
    'step back': stepBack,
    // The dose to restart with is worked out when the lock is cleared.
    stop: () => (decided.goesBack ? stepBack() : { place: from, reasons: [] }),
  }
  return moves[decided.kind]()
}
