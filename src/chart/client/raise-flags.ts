// A red flag stops everything, locks and escalates.
import { alertLevels, type AlertLevel, type RedFlag } from '#src/domain/triage.ts'
import type { SignId } from '#src/domain/identifier.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withoutTimer } from '../timer.ts'
import { push } from '../turn.ts'
import { closeSession } from './close-session.ts'
import { countRestOrdered } from './count-training.ts'
import { startEscalation } from './escalate.ts'
import { describeMoment, newAlert } from './new-alert.ts'
import { planOf } from './plan-facts.ts'
import { raiseRoutine } from './raise-routine.ts'
import { say } from './say.ts'
import { settlePending } from './settle-pending.ts'
import { nameFlags, noteIllness } from './signs.ts'
import { standbyFor } from './standby.ts'

const minuteMs = 60_000
/** Our choice: whoever writes of one sign again and again makes no more of these than a person can read. */
const mostOpenAlerts = 50

export interface FlagMatter {
  /** The client's words, or what they pressed. */
  readonly words: string | null
  readonly isConfirmed: boolean
  /** Which of the words were taken for a sign. */
  readonly matched?: string
}

/** No alert of this sign and of this level, or a graver one, is open; one that locks nothing is new while there is room. */
export function isNewAlarm({ document }: Draft<Chart>, { sign, level }: RedFlag): boolean {
  if (level === 'routine') return document.alerts.length < mostOpenAlerts
  return !document.alerts.some((alert) => alert.sign === sign && alertLevels.indexOf(alert.level) >= alertLevels.indexOf(level))
}

/** Everything stops: the session ends, the chart is locked, the client is told what to do, the therapist is alerted. */
export function raiseFlags(draft: Draft<Chart>, flags: readonly RedFlag[], matter: FlagMatter): void {
  const worst = flags.toSorted((a, b) => alertLevels.indexOf(b.level) - alertLevels.indexOf(a.level))[0]
  if (!worst) return
  const title = nameFlags(draft, flags)
  noteIllness(draft, flags)
  // The words are in the record, and what is open goes on being sent.
  const isOneTooMany = draft.document.alerts.length >= mostOpenAlerts && !isNewAlarm(draft, worst)
  if (worst.level === 'routine') return isOneTooMany ? undefined : raiseRoutine(draft, { title: withWords(title, matter.words), ladder: null, request: null })
  const level = worst.level
  draft.isUrgent = true
  const during = describeMoment(draft)
  stopEverything(draft, level)
  const told = tellClient(draft, level, worst.sign)
  if (isOneTooMany) return
  const alert = newAlert(draft, { level, sign: worst.sign, title, ...matter, told, during })
  lock(draft, level)
  startEscalation(draft, alert)
  if (level === 'emergency') askWhetherCalled(draft)
}

/** Asked at once, and again after a while for as long as it stays unanswered. */
function askWhetherCalled(draft: Draft<Chart>): void {
  push(draft, 'called')
  const again = draft.content.triage.escalation.askCalledAfter.map((minutes) => ({
    kind: 'ask-called' as const,
    about: String(minutes),
    dueAt: draft.at + minutes * minuteMs,
  }))
  draft.change({ timers: [...withoutTimer(draft.document.timers, 'ask-called'), ...again] })
}

function withWords(title: string, words: string | null): string {
  return words === null ? title : `${title}: “${words}”`
}

function stopEverything(draft: Draft<Chart>, level: 'urgent' | 'emergency'): void {
  // A consent half given is taken up again later, and whether help was called stays open; everything else is over.
  const stays = level === 'emergency' ? ['consent'] : ['consent', 'called']
  draft.converse({ conversations: draft.document.conversations.filter((one) => stays.includes(one.flow)) })
  if (draft.document.session) {
    draft.change({ session: { ...draft.document.session, hasRedFlag: true, endedEarly: true, isOver: true } })
    closeSession(draft)
  }
  // What an earlier session still waited for is decided with what is known.
  settlePending(draft)
  const kinds = ['silence', 'session-end', 'ask-sign-again', 'sign-unanswered', 'check-in', 'absence'] as const
  draft.change({ timers: kinds.reduce((timers, kind) => withoutTimer(timers, kind), draft.document.timers) })
}

function lock(draft: Draft<Chart>, level: 'urgent' | 'emergency'): void {
  const { lock: standing } = draft.document
  const isWorse = standing === null || (standing.level === 'urgent' && level === 'emergency')
  if (isWorse) draft.change({ lock: { level, since: standing?.since ?? draft.at } })
  draft.record('lock', 'nuchal', { level })
  countRestOrdered(draft)
}

/** Says what to do and gives back what was said, which the alert shows. */
function tellClient(draft: Draft<Chart>, level: 'urgent' | 'emergency', sign: SignId): string {
  const said = wordsFor[level](draft, sign)
  draft.say(said)
  return said
}

const wordsFor: Record<Exclude<AlertLevel, 'routine'>, (draft: Draft<Chart>, sign: SignId) => string> = {
  emergency: (draft, sign) => {
    const { text, words } = say(draft, 'client')
    // Some signs need words of their own: "put the weight down" is no answer to somebody who is being hurt.
    const own = `flag.emergency-${sign}`
    return text(words.has(own) ? own : 'flag.emergency', { number: planOf(draft.document).emergencyNumber })
  },
  urgent: (draft) => {
    const { text, time } = say(draft, 'client')
    const { emergencyNumber, outOfHoursNumber } = planOf(draft.document)
    const { isAnybodyOnDuty, nextOnDutyAt } = standbyFor(draft.document, 'urgent', draft.at)
    const by = time(draft.at + draft.content.triage.escalation.contactWithin.urgent * minuteMs)
    const next = nextOnDutyAt === null ? 'none' : time(nextOnDutyAt)
    const values = { by, next, outOfHours: outOfHoursNumber, number: emergencyNumber }
    return text(isAnybodyOnDuty ? 'flag.urgent' : 'flag.urgent-off-duty', values)
  },
}
