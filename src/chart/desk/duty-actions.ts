// When a therapist is on duty, when they are away and who stands in: said at their desk, known to the whole clinic.
import type { Conversation, Facts } from '#src/conversation/flow.ts'
import type { Option } from '#src/conversation/question.ts'
import type { LocalDate } from '#src/domain/identifier.ts'
import { describeDay } from '#src/schedule/describe-instant.ts'
import { addDays, daysBetween, instantOf, localDateOf, weekdayOf } from '#src/schedule/wall-time.ts'
import { clinicId } from '../clinic.ts'
import { cardOf, type Desk } from '../desk.ts'
import type { Away, Cover, DeskCard } from '../desk-card.ts'
import type { Draft } from '../draft.ts'
import type { ActionHandler, Values } from '../turn.ts'

type Data = Conversation['data']

/** Our choice: whoever is away for longer is no longer a therapist here, or has typed another year. */
const longestAwayDays = 180
const daysOnOffer = 7
const weeksOnOffer = [14, 21, 28]
const nobody = 'none'

export const dutyActions: Readonly<Record<string, ActionHandler<Desk>>> = {
  'go-away': goAway,
  'end-away': (draft) => {
    changeDuty(draft, { away: null })
    draft.say(words(draft).say('duty.here-again'))
  },
  'say-not-away': (draft) => draft.say(words(draft).say('duty.not-away')),
  'say-no-period': (draft) => draft.say(words(draft).say('duty.no-period', { most: longestAwayDays })),
  'change-cover': (draft, { data }) => {
    changeDuty(draft, { cover: coverFrom(data) })
    draft.say(words(draft).say('duty.changed', describeCover(draft.document.cover, draft)))
  },
}

/** Duty times as they were answered, here or at settling in. */
export function coverFrom(data: Data): Cover {
  const hours = data.hours as unknown as { from: string; to: string }
  return { days: data.days as unknown as Cover['days'], from: hours.from, to: hours.to }
}

/** The card goes to the clinic, from there to every desk, and from each desk to its clients' charts. */
function changeDuty(draft: Draft<Desk>, patch: Partial<Pick<Desk, 'away' | 'cover'>>): void {
  // The next duty may begin at another time now.
  draft.change({ ...patch, timers: [] })
  const { name, cover, away } = draft.document
  draft.record('duty-changed', name, { cover, away })
  draft.tell(clinicId, { kind: 'settled-in', card: cardOf(draft.document) })
}

function goAway(draft: Draft<Desk>, { data }: Conversation): void {
  const away = awayFrom(draft, data)
  const before = draft.document.away
  changeDuty(draft, { away })
  draft.say(words(draft).say('duty.away-noted', { ...describeAway(draft, away), standIn: nameOf(draft, away.standIn) ?? nobody }))
  if (before !== null && before.standIn !== null && before.standIn !== away.standIn) tellStandIn(draft, before.standIn, 'duty.stands-in-no-more', before)
  if (away.standIn !== null) tellStandIn(draft, away.standIn, 'duty.stands-in', away)
}

/** Whoever was to stand in has left: whoever takes over stands in instead, unless that is the therapist who is away. */
export function replaceStandIn(draft: Draft<Desk>, left: DeskCard['desk'], to: DeskCard): void {
  const { away, id } = draft.document
  if (away === null || away.standIn !== left || draft.at >= away.until) return
  const standIn = to.desk === id ? null : to.desk
  draft.change({ away: { ...away, standIn } })
  draft.record('stand-in-left', 'nuchal', { left, standIn })
  draft.tell(clinicId, { kind: 'settled-in', card: cardOf(draft.document) })
  draft.say(words(draft).say('duty.stand-in-left', { standIn: standIn === null ? nobody : to.name }))
  if (standIn !== null) tellStandIn(draft, standIn, 'duty.stands-in', away)
}

function tellStandIn(draft: Draft<Desk>, desk: DeskCard['desk'], key: string, away: Away): void {
  const text = words(draft).say(key, { name: draft.document.name, ...describeAway(draft, away) })
  draft.tell(desk, { kind: 'show', shown: { text, buttons: [], urgency: 'reply', alert: null } })
}

function awayFrom({ document }: Draft<Desk>, data: Data): Away {
  const standIn = colleaguesOf(document).find(({ desk }) => desk === data['stand-in'])?.desk ?? null
  return { from: startOf(data.from as LocalDate, document), until: startOf(data.until as LocalDate, document), standIn }
}

function startOf(date: LocalDate, { zone }: Desk): number {
  return instantOf(date, '00:00', zone)
}

function colleaguesOf({ id, colleagues }: Desk): readonly DeskCard[] {
  return colleagues.filter(({ desk }) => desk !== id)
}

function nameOf({ document }: Draft<Desk>, desk: unknown): string | null {
  return document.colleagues.find((card) => card.desk === desk)?.name ?? null
}

export function dutyFacts(draft: Draft<Desk>, { data }: Conversation): Facts {
  const { away } = draft.document
  return {
    isAway: away !== null && draft.at < away.until,
    hasColleague: colleaguesOf(draft.document).length > 0,
    isPeriod: typeof data.from === 'string' && typeof data.until === 'string' && isPeriod(draft, data.from as LocalDate, data.until as LocalDate),
  }
}

function isPeriod(draft: Draft<Desk>, from: LocalDate, until: LocalDate): boolean {
  const today = todayOf(draft)
  return from >= today && until > from && daysBetween(today, until) <= longestAwayDays
}

function todayOf({ at, document }: Draft<Desk>): LocalDate {
  return localDateOf(at, document.zone)
}

export const dutyOptions: Readonly<Record<string, (draft: Draft<Desk>, data: Data) => readonly Option[]>> = {
  'first-days-away': (draft) => {
    const today = todayOf(draft)
    return [{ ...dayOption(draft, today), saidAs: 'duty.day.say-today' }, ...daysAfter(draft, today)]
  },
  'days-back': (draft, { from }) => {
    const first = from as LocalDate
    return [...daysAfter(draft, first), ...weeksOnOffer.map((days) => dayOption(draft, addDays(first, days)))]
  },
  'stand-ins': (draft) => [
    ...colleaguesOf(draft.document).map(({ desk, name }) => ({ value: desk, label: name })),
    { value: nobody, words: 'duty.stand-in.nobody' },
  ],
}

/** Each weekday once, so that its name says which day is meant. */
function daysAfter(draft: Draft<Desk>, first: LocalDate): readonly Option[] {
  return Array.from({ length: daysOnOffer }, (_, index) => {
    const date = addDays(first, index + 1)
    const isTomorrow = date === addDays(todayOf(draft), 1)
    return { ...dayOption(draft, date), saidAs: isTomorrow ? 'duty.day.say-tomorrow' : `duty.day.say-${weekdayOf(date)}` }
  })
}

function dayOption(draft: Draft<Desk>, date: LocalDate): Option {
  return { value: date, label: day(draft, startOf(date, draft.document)) }
}

export function dutyValues(draft: Draft<Desk>, { data }: Conversation, key: string): Values {
  const { cover, away } = draft.document
  const isAway = away !== null && draft.at < away.until
  if (key === 'duty.what') return { ...describeCover(cover, draft), state: isAway ? 'away' : 'here', ...(isAway ? describeAway(draft, away) : { from: '', until: '' }) }
  if (key === 'duty.until') return { from: day(draft, startOf(data.from as LocalDate, draft.document)) }
  if (key !== 'duty.review') return {}
  return { ...describeAway(draft, awayFrom(draft, data)), standIn: nameOf(draft, data['stand-in']) ?? nobody }
}

function describeAway(draft: Draft<Desk>, { from, until }: Away): { from: string; until: string } {
  return { from: day(draft, from), until: day(draft, until) }
}

function describeCover({ days, from, to }: Cover, draft: Draft<Desk>): Values {
  return { days: days.map((name) => words(draft).say(`common.weekday.${name}`)).join(', '), begins: from, ends: to }
}

function day({ document }: Draft<Desk>, at: number): string {
  return describeDay(at, document.zone, document.language)
}

function words(draft: Draft<Desk>): ReturnType<Draft<Desk>['words']> {
  return draft.words(draft.document.language)
}
