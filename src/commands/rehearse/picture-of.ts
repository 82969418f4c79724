// A rehearsal as a picture: printed sessions, laid out along the client's own chains.
import { chainOf, protocolOf } from '#src/chart/client/plan-facts.ts'
import type { Content, Words } from '#src/content/content.ts'
import { decisions, type DecisionKind } from '#src/domain/decision.ts'
import { ladderOf, type Direction } from '#src/domain/direction.ts'
import { compareDoses, type Dose, type Load } from '#src/domain/dose.ts'
import type { ChainPlace } from '#src/domain/chain.ts'
import { weekdays, type Plan } from '#src/domain/plan.ts'
import { comfortableUpTo } from '#src/rules/pain-zone.ts'
import type { PictureLock, PicturePanel, PictureWords, PlanPicture } from '#src/reports/plan-picture.ts'
import type { SessionAnswers } from './answers-schema.ts'
import type { RehearsedSession } from './collect-session.ts'

export interface Pictured {
  readonly title: string
  readonly note: string
  readonly answers: readonly SessionAnswers[]
  readonly sessions: readonly RehearsedSession[]
}

const daysAWeek = 7

export function pictureOf(plan: Plan, content: Content, words: Words, { title, note, answers, sessions }: Pictured): PlanPicture {
  const protocol = protocolOf(plan, content)
  const limits = { comfortable: comfortableUpTo(plan.usualPain, protocol), amber: protocol.pain.amberUpTo }
  const weeks = Math.max(1, Math.ceil(((sessions.at(-1)?.day ?? 0) + 1) / daysAWeek))
  return {
    title,
    notes: [note, words.say('picture.note-pain', { usual: plan.usualPain, ...limits })],
    weeks,
    panels: plan.ladders.map(({ direction }) => panelOf(direction, plan, content, words, sessions)),
    before: sessions.flatMap(({ locked }, index) => painOf(locked ? null : answers[index]?.before?.pain, answers[index]?.day)),
    mornings: answers.flatMap(({ morning, day }) => painOf(morning?.pain, day + 1)),
    trainedOn: sessions.filter(({ sets }) => sets.length > 0).map(({ day }) => day),
    missedOn: missedDays(plan, sessions, weeks),
    locks: locksOf(sessions, weeks),
    limits,
    words: wordsOf(words, limits),
  }
}

function painOf(pain: number | null | undefined, day: number | undefined): PlanPicture['before'] {
  return pain == null || day === undefined ? [] : [{ day, pain }]
}

function panelOf(direction: Direction, plan: Plan, content: Content, words: Words, sessions: readonly RehearsedSession[]): PicturePanel {
  // A dose to be met twice stands once on the axis.
  const places = chainOf(plan, ladderOf(direction), content).places.filter((place) => place.standing !== 'again')
  const rungs = [...new Set(places.map((place) => place.rung))]
  return {
    direction,
    name: words.say('picture.panel', { direction: words.say(`common.direction.${direction}`), sets: places[0]?.dose.sets ?? 0 }),
    rungs: rungs.map((rung) => ({
      name: words.exerciseName(placeOn(places, rung).exercise),
      from: places.findIndex((place) => place.rung === rung),
      to: places.findLastIndex((place) => place.rung === rung),
    })),
    doses: sessions.flatMap(({ day, prescription }) =>
      prescription
        .filter((one) => one.direction === direction && !one.warmup)
        .map((one) => {
          const dose = doseOf(one)
          const place = places.findIndex((other) => other.rung === one.rung && compareDoses(other.dose, dose) === 0)
          return { day, place, rung: one.rung ?? 0, text: writeDose(dose, words) }
        }),
    ),
    pains: sessions.flatMap(({ day, sets }) => {
      const pains = sets.flatMap((set) => (set.direction === direction && set.answer ? [set.answer.pain] : []))
      return pains.length === 0 ? [] : [{ day, pain: Math.max(...pains) }]
    }),
    decisions: sessions.flatMap(({ day, decisions: all }) =>
      all.filter((one) => one.direction === direction).map(({ decision, reasons }) => ({ day, kind: decision, why: reasons.map(({ text }) => text).join(' ') })),
    ),
  }
}

function placeOn(places: readonly ChainPlace[], rung: number): ChainPlace {
  const place = places.find((one) => one.rung === rung)
  if (place === undefined) throw new RangeError(`no place on rung ${rung}`)
  return place
}

function doseOf({ sets, reps, hold_s, load_kg, load_n, push }: RehearsedSession['prescription'][number]): Dose {
  const load: Load =
    load_kg !== null
      ? { kind: 'mass', kilograms: load_kg, plates: [] }
      : load_n !== null
        ? { kind: 'force', newtons: load_n, band: '', stretchCm: 0 }
        : push !== null
          ? { kind: 'push', effort: push }
          : { kind: 'none' }
  return { sets, reps, holdSeconds: hold_s, load }
}

function writeDose({ reps, holdSeconds, load }: Dose, words: Words): string {
  const work = holdSeconds === null ? words.say('picture.repetitions', { reps }) : words.say('picture.holds', { reps, seconds: holdSeconds })
  return load.kind === 'none' ? work : words.say(`picture.${load.kind}`, { work, ...load, plates: '' })
}

/** From the session with the sign to the first that is held again; to the end where none is. */
function locksOf(sessions: readonly RehearsedSession[], weeks: number): readonly PictureLock[] {
  const locks: PictureLock[] = []
  sessions.forEach(({ day, locked, alerts }, index) => {
    const isLocking = locked || alerts.some(({ level }) => level !== 'routine')
    const before = locks.at(-1)
    if (!isLocking || (before !== undefined && day < before.to)) return
    const next = sessions.slice(index + 1).find((session) => !session.locked)
    locks.push({ from: day, to: next?.day ?? weeks * daysAWeek })
  })
  return locks
}

function missedDays({ schedule }: Plan, sessions: readonly RehearsedSession[], weeks: number): readonly number[] {
  const days = Array.from({ length: weeks * daysAWeek }, (_, day) => day)
  return days.filter((day) => schedule.days.includes(weekdays[day % daysAWeek] ?? 'mon') && !sessions.some((session) => session.day === day && session.sets.length > 0))
}

function wordsOf(words: Words, { comfortable, amber }: PlanPicture['limits']): PictureWords {
  const text = (key: string): string => words.say(`picture.${key}`)
  return {
    place: text('place'),
    worstPain: text('worst-pain'),
    decided: text('decided'),
    locked: text('locked'),
    before: text('before'),
    morning: text('morning'),
    trained: text('trained'),
    missed: text('missed'),
    days: text('days'),
    wholeClient: text('whole-client'),
    week: text('week'),
    comfortable: words.say('picture.comfortable', { pain: comfortable }),
    amber: words.say('picture.amber', { pain: amber }),
    red: words.say('picture.red', { pain: amber }),
    decisions: Object.fromEntries(decisions.map((kind) => [kind, text(`decision.${kind.replace(' ', '-')}`)])) as Record<DecisionKind, string>,
  }
}
