// Plays a script of answers, or an invented client, against a plan: the same step, a virtual clock, a virtual therapist.
import type { Chart } from '#src/chart/chart.ts'
import type { DeskCard } from '#src/chart/desk-card.ts'
import type { Actor, ActKind } from '#src/chart/event.ts'
import type { Step } from '#src/chart/step.ts'
import type { Content } from '#src/content/content.ts'
import type { Entry } from '#src/domain/entry.ts'
import { brandAs, type DocumentId, type Instant, type LocalDate } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import { addDays, instantOf } from '#src/schedule/wall-time.ts'
import { decisionsOf } from '#src/chart/client/settle-pending.ts'
import type { Answers, SessionAnswers } from './answers-schema.ts'
import { attendByScript, type Attendance } from './attendance.ts'
import { collectSession, type PlayedSession, type RehearsedSession } from './collect-session.ts'
import { VirtualClient } from './virtual-client.ts'
import { VirtualClinic } from './virtual-clinic.ts'

export interface Rehearsal {
  readonly sessions: readonly RehearsedSession[]
}

export interface InventedRehearsal extends Rehearsal {
  readonly answers: Answers
}

/** Day 0, whatever today is: a Monday. */
const dayZero = brandAs<LocalDate>('2026-01-05')
const chartId = brandAs<DocumentId>('chart-000000000000')
const morningTime = '08:00'
const minuteMs = 60_000
const reviewEveryDays = 7
/** A check-in waits for what is asked before it; at eight there is at most the weekly question. */
const checkInTries = 3

const therapist: DeskCard = {
  desk: brandAs<DocumentId>('desk-000000000000'),
  name: 'rehearsal',
  zone: 'UTC',
  cover: { days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'], from: '00:00', to: '23:59' },
}
const actor: Actor = { desk: therapist.desk, name: therapist.name }

export function rehearsePlan(plan: Plan, { sessions, approve }: Answers, step: Step, content: Content): Rehearsal {
  return playAll(new Play(plan, approve ?? true, step, content), sessions.map(attendByScript), content)
}

/** What an invented client answered is a script like any other: played again, it gives the same sessions. */
export function rehearseInvented(plan: Plan, attendances: Iterable<Attendance>, step: Step, content: Content): InventedRehearsal {
  const answers: SessionAnswers[] = []
  function* noted(): Generator<Attendance> {
    for (const attendance of attendances) {
      answers.push(attendance.answers)
      yield attendance
    }
  }
  const { sessions } = playAll(new Play(plan, true, step, content), noted(), content)
  return { answers: { sessions: answers, approve: true }, sessions }
}

function playAll(play: Play, attendances: Iterable<Attendance>, content: Content): Rehearsal {
  const played = Array.from(attendances, (attendance) => play.session(attendance))
  const last = played.at(-1)
  if (last) play.finish(last.answers.day)
  const { entries } = play.clinic
  const { pending } = play.chart()
  const waiting = decisionsOf(play.chart(), content, false)
  const sessions = played.map((one, index) => {
    const during = entries.slice(one.from, played[index + 1]?.from ?? entries.length)
    return collectSession({ ...one, during, entries, pending, waiting, content })
  })
  return { sessions }
}

/** One client's weeks under way. */
class Play {
  readonly clinic: VirtualClinic
  private readonly client: VirtualClient
  private readonly plan: Plan
  private readonly approves: boolean
  private handled = 0
  private reviewedOn = 0

  constructor(plan: Plan, approves: boolean, step: Step, content: Content) {
    this.plan = plan
    this.approves = approves
    this.clinic = new VirtualClinic(step, content, instantOf(dayZero, '00:00', plan.zone))
    this.clinic.submit(chartId, { kind: 'told', from: therapist.desk, told: { kind: 'enrolled', plan, therapist, second: null } })
    this.client = new VirtualClient(this.clinic, chartId, plan.usualPain)
    this.client.join()
  }

  /** Plays one session and the morning after; its decisions are final only when the next one begins. */
  session(attendance: Attendance): PlayedSession {
    const { answers } = attendance
    const at = this.instant(answers.day, this.plan.schedule.time)
    this.advance(at - minuteMs)
    if (answers.clear === true && this.chart().lock) this.clear()
    this.review(answers.day)
    const from = this.clinic.entries.length
    this.advance(at)
    const wasLocked = this.chart().lock !== null
    if (wasLocked) attendance.findLocked()
    else this.client.train(attendance)
    this.respond()
    // An unfinished session ends at midnight; the morning is answered at eight.
    this.advance(this.instant(answers.day + 1, morningTime), () => this.client.wakeUp(attendance))
    this.waitForCheckIn(attendance)
    return { answers, from, wasLocked }
  }

  /** Quiet hours may end after eight, and another question may have been open: then it is answered once it is asked. */
  private waitForCheckIn(attendance: Attendance): void {
    const endOfDay = this.instant(attendance.answers.day + 2, '00:00')
    for (let tries = 0; tries < checkInTries; tries += 1) {
      const checkIn = this.chart().timers.find((timer) => timer.kind === 'check-in' && timer.dueAt < endOfDay)
      if (checkIn === undefined || attendance.morning()?.pain == null) return
      this.advance(checkIn.dueAt, () => this.client.wakeUp(attendance))
    }
  }

  /** Lets the last session's morning pass. */
  finish(day: number): void {
    this.advance(this.instant(day + 1, '12:00'))
  }

  chart(): Chart {
    return this.clinic.chart(chartId)
  }

  private instant(day: number, time: string): Instant {
    return instantOf(addDays(dayZero, day), time, this.plan.zone)
  }

  /** Moves the clock stop by stop, so that whoever is asked on the way answers there and then. */
  private advance(to: Instant, answer: () => void = () => undefined): void {
    for (;;) {
      const due = Math.min(to, ...this.chart().timers.map((timer) => timer.dueAt))
      this.clinic.advanceTo(Math.max(due, this.clinic.now))
      this.respond()
      answer()
      this.respond()
      if (due >= to) return
    }
  }

  private act(act: ActKind, about: string): void {
    this.clinic.submit(chartId, { kind: 'act', by: actor, act, about, seenRevision: this.chart().revision })
  }

  /** Acknowledges every alert at once; permits and releases at once where the script says so. */
  private respond(): void {
    for (; this.handled < this.clinic.entries.length; this.handled += 1) this.respondTo(this.clinic.entries[this.handled])
  }

  private respondTo(entry: Entry | undefined): void {
    if (entry?.kind === 'alert') {
      this.act('acknowledge', String(entry.data.alert))
      if (entry.data.level !== 'routine') this.act('contacted', String(entry.data.alert))
    }
    if (!this.approves) return
    if (entry?.kind === 'request') this.act('permit', String(entry.data.id))
    for (const request of this.chart().requests.filter((open) => open.kind === 'lowest-dose')) this.act('resume', request.id)
  }

  private review(day: number): void {
    if (!this.approves || day - this.reviewedOn < reviewEveryDays) return
    this.reviewedOn = day
    this.act('review', 'now')
  }

  private clear(): void {
    this.clinic.submit(chartId, {
      kind: 'told',
      from: therapist.desk,
      told: { kind: 'cleared', by: actor, assessed: 'seen', reason: 'rehearsal', dose: 'usual' },
    })
  }
}
