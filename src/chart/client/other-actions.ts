// The actions of the shorter flows: consent, morning, called.
import type { Answer } from '#src/conversation/question.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { ActionHandler } from '../turn.ts'
import { tellTherapist } from './alert-message.ts'
import { changeAlert, sendAgain } from './escalate.ts'
import { planOf } from './plan-facts.ts'
import { scheduleAbsence } from './absence-timer.ts'
import { scheduleRetest } from './retest.ts'
import { scheduleSupervision } from './supervision.ts'
import { say } from './say.ts'
import { decisionsOf } from './settle-pending.ts'
import { sayPrescriptionAhead } from './summary.ts'
import { mayJoin, turnAway } from './turned-away.ts'
import { scheduleReminder, scheduleWeekly } from './when.ts'

export const otherActions: Readonly<Record<string, ActionHandler<Chart>>> = {
  'give-consent': (draft) => {
    draft.change({ consentedAt: draft.at })
    draft.record('consent', 'client', { isGiven: true })
  },
  'refuse-consent': refuseConsent,
  'pause-consent': (draft) => draft.say(say(draft, 'client').text('consent.paused')),
  'set-zone': (draft, _conversation, zone) => draft.change({ plan: { ...planOf(draft.document), zone: String(zone) } }),
  'set-time': (draft, _conversation, time) => {
    const plan = planOf(draft.document)
    draft.change({ plan: { ...plan, schedule: { ...plan.schedule, time: String(time) } } })
  },
  'say-time-quiet': (draft) => draft.say(say(draft, 'client').text('consent.time-quiet', planOf(draft.document).schedule.quiet)),
  'finish-joining': finishJoining,
  'tell-morning': tellMorning,
  'record-called': recordCalled,
}

function refuseConsent(draft: Draft<Chart>): void {
  const { text } = say(draft, 'client')
  draft.change({ standing: 'refused' })
  draft.record('consent', 'client', { isGiven: false })
  draft.say(text('consent.refused'))
  tellTherapist(draft, plain(say(draft, 'therapist').text('alert.consent-refused', { client: planOf(draft.document).client.name })))
}

function plain(text: string): Parameters<typeof tellTherapist>[1] {
  return { text, buttons: [], urgency: 'reply', alert: null }
}

function finishJoining(draft: Draft<Chart>): void {
  if (!mayJoin(draft)) return turnAway(draft)
  const plan = planOf(draft.document)
  draft.change({ standing: 'active' })
  draft.record('joined', 'client', { zone: plan.zone, time: plan.schedule.time })
  scheduleReminder(draft)
  scheduleWeekly(draft)
  scheduleSupervision(draft)
  scheduleRetest(draft)
  scheduleAbsence(draft)
  const { text, time } = say(draft, 'client')
  const first = draft.document.timers.find((timer) => timer.kind === 'reminder')
  draft.say(text('consent.welcome', { when: first ? time(first.dueAt) : '–', number: plan.emergencyNumber }))
  tellTherapist(draft, plain(say(draft, 'therapist').text('alert.joined', { client: plan.client.name, zone: plan.zone, time: plan.schedule.time })))
}

/** What the morning makes of the next session's dose. */
function tellMorning(draft: Draft<Chart>): void {
  const { text } = say(draft, 'client')
  draft.say(text('morning.thanks'))
  sayPrescriptionAhead(draft, decisionsOf(draft.document, draft.content, false), false)
}

/** Whether the client could call for help goes into the alert, and to whoever has it. */
function recordCalled(draft: Draft<Chart>, _conversation: unknown, answer: Answer): void {
  const { text } = say(draft, 'client')
  const { alerts } = draft.document
  const alert = alerts.filter((one) => one.level === 'emergency').at(-1)
  draft.record('called', 'client', { answer })
  draft.say(text(answer === 'called' ? 'called.noted' : 'called.cannot', { number: planOf(draft.document).emergencyNumber }))
  if (!alert) return
  const clientSaid = say(draft, 'therapist').text(answer === 'called' ? 'alert.client-called' : 'alert.client-cannot-call')
  changeAlert(draft, alert.id, { clientSaid })
  sendAgain(draft, { ...alert, clientSaid })
}
