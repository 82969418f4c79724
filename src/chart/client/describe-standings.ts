// Where a client stands on every ladder, in words: the dose of the next session as far as it is known.
import type { LadderId } from '#src/domain/direction.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { placesAhead } from './places-ahead.ts'
import { say } from './say.ts'

export type Standings = ReadonlyMap<LadderId, string>

/** Of this chart, or of the same one under another plan. */
export function standingsOf(draft: Draft<Chart>, chart: Chart, reader: 'client' | 'therapist' = 'therapist'): Standings {
  const { dose, text } = say(draft, reader)
  return new Map(
    [...placesAhead(chart, draft.content)].map(([ladder, { place }]) => {
      const what = dose(place.exercise, place.dose, null)
      return [ladder, reader === 'client' ? what : text('amended.standing', { rung: place.rung, dose: what })]
    }),
  )
}

/** The ladders whose next dose is another one than before. */
export function laddersChanged(draft: Draft<Chart>, before: Chart): readonly LadderId[] {
  const [then, now] = [standingsOf(draft, before), standingsOf(draft, draft.document)]
  return [...now.keys()].filter((ladder) => then.get(ladder) !== now.get(ladder))
}

/** For the client: the next dose on these ladders, a line each. */
export function describeStandings(draft: Draft<Chart>, ladders: readonly LadderId[]): readonly string[] {
  const { text } = say(draft, 'client')
  const standings = standingsOf(draft, draft.document, 'client')
  return ladders.map((ladder) => text('amended.client.dose', { dose: standings.get(ladder) ?? '' }))
}
