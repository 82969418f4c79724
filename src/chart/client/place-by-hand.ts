// A therapist sets a dose by hand: what is on offer, and what comes of it.
import type { Chain } from '#src/domain/chain.ts'
import type { LadderId } from '#src/domain/direction.ts'
import { startAnew } from '#src/rules/carry-over.ts'
import { locate, placeAt, type PlaceIndex } from '#src/rules/moves.ts'
import { placeOnOffer, placesOnOffer, type PlaceOverride } from '#src/rules/place-override.ts'
import { laddersOf } from '#src/rules/plan-ladders.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { Actor, LadderOnOffer, ToldOf } from '../event.ts'
import { flushNotes } from '../turn.ts'
import { tellDesk } from './alert-message.ts'
import { clientParty } from './client-party.ts'
import { describeStandings, standingsOf } from './describe-standings.ts'
import { gatesOf } from './gates.ts'
import { chainOf, planOf, stateOf, todayOf } from './plan-facts.ts'
import { say } from './say.ts'

/** Doses of the present rung offered below the present one, nearest first; its lowest is always among them. */
const nearestOffered = 5

/** Hands the doses on offer to the therapist's desk, or says why there is none. */
export function offerPlaces(draft: Draft<Chart>, by: Actor): string {
  const hindrance = hindranceOf(draft)
  if (hindrance !== null) return hindrance
  const plan = planOf(draft.document)
  const offers = laddersOf(plan).map((ladder) => offerOf(draft, ladder)).filter(({ places }) => places.length > 0)
  if (offers.length === 0) return text(draft, 'acts.nothing-to-place')
  draft.tell(by.desk, { kind: 'place', chart: draft.document.id, client: plan.client.name, offers })
  return ''
}

function hindranceOf(draft: Draft<Chart>): string | null {
  if (draft.document.lock) return text(draft, 'acts.place-locked')
  return draft.document.session ? text(draft, 'acts.place-session-open') : null
}

function text(draft: Draft<Chart>, key: string, values: Readonly<Record<string, string | number>> = {}): string {
  return say(draft, 'therapist').text(key, { client: planOf(draft.document).client.name, ...values })
}

function overrideOf(draft: Draft<Chart>, ladder: LadderId): PlaceOverride {
  const chain = chainOf(planOf(draft.document), ladder, draft.content)
  const state = stateOf(draft.document, ladder, draft.content)
  const { rung } = placeAt(chain, locate(chain, state.place))
  const top = chain.places.findLast((place) => place.rung === rung) ?? state.place
  return { chain, from: state.place, gates: gatesOf(draft, ladder, { ...state, place: top }), isLocked: draft.document.lock !== null }
}

function offerOf(draft: Draft<Chart>, ladder: LadderId): LadderOnOffer {
  const { dose, text: said } = say(draft, 'therapist')
  const override = overrideOf(draft, ladder)
  const { chain, from } = override
  const label = (index: PlaceIndex): string => {
    const place = placeAt(chain, index)
    return said('amended.standing', { rung: place.rung, dose: dose(place.exercise, place.dose, null) })
  }
  const places = thinned(chain, locate(chain, from), placesOnOffer(override)).map((index) => ({ place: plain(chain, index), label: label(index) }))
  return { ladder, now: `${said(`common.ladder.${ladder}`)}: ${label(locate(chain, from))}`, places: places.toReversed() }
}

/** Of other rungs the entry, of the present one what is near and the lowest. */
function thinned(chain: Chain, here: PlaceIndex, indexes: readonly PlaceIndex[]): readonly PlaceIndex[] {
  const { rung } = placeAt(chain, here)
  const onRung = indexes.filter((index) => placeAt(chain, index).rung === rung)
  const near = new Set([...onRung.slice(0, 1), ...onRung.slice(-nearestOffered)])
  return indexes.filter((index) => near.has(index) || (placeAt(chain, index).rung !== rung && placeAt(chain, index).isEntry))
}

function plain(chain: Chain, index: PlaceIndex): LadderOnOffer['places'][number]['place'] {
  const { rung, exercise, dose, standing } = placeAt(chain, index)
  return { rung, exercise, dose, standing }
}

export function hearPlaced(draft: Draft<Chart>, { by, ladder, place, reason }: ToldOf<'placed'>): void {
  if (draft.document.plan === null) return
  const reply = (answer: string): void => tellDesk(draft, by.desk, { text: answer, buttons: [], urgency: 'reply', alert: null })
  const hindrance = hindranceOf(draft)
  if (hindrance !== null) return reply(hindrance)
  const isPlanned = laddersOf(planOf(draft.document)).includes(ladder)
  const override = isPlanned ? overrideOf(draft, ladder) : null
  const index = override && placeOnOffer(override, place)
  if (override === null || index === null) return reply(text(draft, 'acts.place-gone'))
  const before = standingsOf(draft, draft.document).get(ladder) ?? ''
  setPlace(draft, ladder, override.chain, index)
  draft.record('placed', by.name, { ladder, place: plain(override.chain, index), reason })
  const after = standingsOf(draft, draft.document).get(ladder) ?? ''
  reply(text(draft, 'acts.placed', { ladder: say(draft, 'therapist').text(`common.ladder.${ladder}`), before, after }))
  draft.say([say(draft, 'client').text('amended.client.placed'), ...describeStandings(draft, [ladder])].join('\n'))
  flushNotes(draft, clientParty)
}

function setPlace(draft: Draft<Chart>, ladder: LadderId, chain: Chain, index: PlaceIndex): void {
  const { pending, states, approvals, requests } = draft.document
  const state = stateOf(draft.document, ladder, draft.content)
  const placed = pending && { morning: pending.morning, worstSince: pending.worstSince }
  draft.change({
    states: { ...states, [ladder]: startAnew(state, chain, index, todayOf(draft)) },
    pending: pending && { ...pending, ladders: pending.ladders.map((one) => (one.ladder === ladder ? { ...one, placed } : one)) },
    // What was asked or permitted from where the client stood is over.
    approvals: approvals.filter((approval) => approval.ladder !== ladder),
    requests: requests.filter((request) => request.ladder !== ladder),
  })
}
