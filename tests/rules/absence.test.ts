// Own limits of the protocol: 7, 14 and 28 days. The first day that counts is the one after.
import { describe, expect, it } from 'vitest'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { afterAbsence, type AfterAbsence } from '#src/rules/absence.ts'
import { newLadderState, type LadderState } from '#src/rules/ladder-state.ts'
import { chainFor, extensionPlan, nameOf, novice, placeNamed } from '../support/sample-chain.ts'

const protocol = novice()
const chain = chainFor(extensionPlan)
const on = brandAs<LocalDate>('2026-01-05')

function state(decided: string, trained: string | null): LadderState {
  const lastTrained = trained === null ? null : { on, place: placeNamed(chain, trained) }
  return { ...newLadderState(placeNamed(chain, decided)), lastTrained }
}

function after(days: number, decided: string, trained: string | null): { readonly place: string } & Omit<AfterAbsence, 'place'> {
  const { place, reasons, isTold } = afterAbsence(chain, state(decided, trained), days, protocol)
  return { place: nameOf(chain.places[place] ?? placeNamed(chain, decided)), reasons, isTold }
}

/** The rule, the place and whether the therapist is told, in one line. */
function written(days: number, decided: string, trained: string | null): string {
  const { place, reasons, isTold } = after(days, decided, trained)
  return [place, ...reasons.map((reason) => reason.rule), ...(isTold ? ['told'] : [])].join('; ')
}

describe('after days off', () => {
  it.each([
    // Decided one place above what was trained.
    [7, '3 3 × 10, 19.6 N', '3 3 × 8, 19.6 N', '3 3 × 10, 19.6 N'],
    [8, '3 3 × 10, 19.6 N', '3 3 × 8, 19.6 N', '3 3 × 8, 19.6 N; absence-withdrawn'],
    [14, '3 3 × 10, 19.6 N', '3 3 × 8, 19.6 N', '3 3 × 8, 19.6 N; absence-withdrawn'],
    [15, '3 3 × 10, 21.3 N', '3 3 × 8, 21.3 N', '3 3 × 12, 17.9 N; absence-eased'],
    [28, '3 3 × 10, 21.3 N', '3 3 × 8, 21.3 N', '3 3 × 12, 17.9 N; absence-eased'],
    [29, '3 3 × 10, 21.3 N', '3 3 × 8, 21.3 N', '3 3 × 8, 17.9 N; absence-reentry; told'],
    // The eased dose lies below the entry of the rung.
    [29, '3 3 × 8, 19.6 N', '3 3 × 8, 19.6 N', '3 3 × 4, 17.9 N; absence-reentry; told'],
    // A rung entered and not yet trained is withdrawn, to the last dose trained.
    [8, '3 3 × 8, 17.9 N', '2 3 × 5 × 10 s, push 5, again', '2 3 × 5 × 10 s, push 5; absence-withdrawn'],
    // Met once is forgotten.
    [7, '3 3 × 12, 19.6 N, again', '3 3 × 12, 19.6 N', '3 3 × 12, 19.6 N, again'],
    [8, '3 3 × 12, 19.6 N, again', '3 3 × 12, 19.6 N', '3 3 × 12, 19.6 N; absence-withdrawn'],
    [8, '3 3 × 12, 19.6 N, again', '3 3 × 12, 19.6 N, again', '3 3 × 12, 19.6 N; absence-withdrawn'],
    // What was decided lower already stays, and nothing is said of it.
    [8, '3 3 × 8, 19.6 N', '3 3 × 10, 19.6 N', '3 3 × 8, 19.6 N'],
    [15, '3 3 × 4, 17.9 N', '3 3 × 10, 19.6 N', '3 3 × 4, 17.9 N; absence-eased'],
    [29, '2 3 × 5 × 5 s, push 3', '3 3 × 10, 19.6 N', '2 3 × 5 × 5 s, push 3; absence-reentry; told'],
    // Never trained yet: nothing to lose.
    [60, '2 3 × 5 × 5 s, push 3', null, '2 3 × 5 × 5 s, push 3'],
  ])('%i, decided "%s" and trained "%s", it is "%s"', (days, decided, trained, expected) => {
    expect(written(days, decided, trained)).toBe(expected)
  })

  it('the days are told', () => {
    expect(after(29, '3 3 × 8, 19.6 N', '3 3 × 8, 19.6 N').reasons).toEqual([{ rule: 'absence-reentry', numbers: { days: 29 } }])
  })

  it('the place never rises, and never falls with fewer days', () => {
    const wrong = chain.places.flatMap((place) =>
      [0, 8, 15].flatMap((fewer, index) => {
        const more = [8, 15, 29][index] ?? 29
        const own: LadderState = { ...newLadderState(place), lastTrained: { on, place } }
        const [shorter, longer] = [fewer, more].map((days) => afterAbsence(chain, own, days, protocol).place)
        return shorter === undefined || longer === undefined || longer > shorter ? [nameOf(place)] : []
      }),
    )
    expect(wrong).toEqual([])
  })
})
