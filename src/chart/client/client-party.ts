// How a chart takes part in conversations.
import type { Conversation, Facts } from '#src/conversation/flow.ts'
import type { Option } from '#src/conversation/question.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { Party, Values } from '../turn.ts'
import { otherActions } from './other-actions.ts'
import { planOf, protocolOf, therapistNameOf } from './plan-facts.ts'
import { screenOptions, signGroupOptions, signOptions } from './screen.ts'
import { sayNextSet, sayWarmUp } from './instructions.ts'
import { say } from './say.ts'
import { sessionActions } from './session-actions.ts'
import { noteAsked, sessionFacts } from './session-state.ts'
import { waitForSilence } from './silence.ts'
import { symptomActions, waitForAnswer } from './symptom-actions.ts'
import { weeklyActions, weeklyFacts, weeklyValues } from './weekly-actions.ts'
import { messageActions, messageValues } from './messages.ts'
import { pauseActions, pauseFacts } from './pause.ts'
import { timesFacts, whenActions, whenValues } from './when.ts'
import { withdrawActions, withdrawValues } from './withdraw.ts'
import { painZone } from '#src/rules/pain-zone.ts'
import { isInQuiet } from '#src/schedule/quiet-hours.ts'

export const clientParty: Party<Chart> = {
  words: (chart, draft) => draft.words(chart.plan?.client.language ?? ''),
  contact: (chart) => chart.contact,
  facts: (draft, conversation) => (factsOf[conversation.flow] ?? sessionFacts)(draft, conversation),
  actions: {
    ...sessionActions,
    ...symptomActions,
    ...otherActions,
    ...weeklyActions,
    ...pauseActions,
    ...whenActions,
    ...messageActions,
    ...withdrawActions,
  },
  options,
  values,
  asked,
  urgency: (draft) => {
    if (draft.isUrgent || draft.document.conversations.at(-1)?.flow === 'called') return 'alert'
    return draft.isReminder ? 'reminder' : 'reply'
  },
}

const factsOf: Readonly<Record<string, (draft: Draft<Chart>, conversation: Conversation) => Facts>> = {
  morning: morningFacts,
  consent: consentFacts,
  weekly: weeklyFacts,
  pause: pauseFacts,
  times: timesFacts,
}

/** No reminder comes in the quiet hours, so no session can be set into them. */
function consentFacts(draft: Draft<Chart>): { isTimeQuiet: boolean } {
  const { schedule } = planOf(draft.document)
  return { isTimeQuiet: isInQuiet(schedule.time, schedule.quiet) }
}

/** A morning of red pain is asked about like any other. */
function morningFacts(draft: Draft<Chart>): { asksSymptom: boolean } {
  const plan = planOf(draft.document)
  const morning = draft.document.pending?.morning ?? null
  return { asksSymptom: morning !== null && painZone(morning, plan.usualPain, protocolOf(plan, draft.content)) === 'red' }
}

function options(draft: Draft<Chart>, conversation: Conversation, from: string): readonly Option[] {
  if (from === 'signs-of-group') return signOptions(draft, String(conversation.data.group))
  return from === 'sign-groups' ? signGroupOptions(draft) : screenOptions(draft)
}

const valuesOf: Readonly<Record<string, (draft: Draft<Chart>, conversation: Conversation) => Values>> = {
  'session.ready': (draft) => ({ name: planOf(draft.document).client.name }),
  'session.warm-up': (draft) => ({ steps: sayWarmUp(draft) }),
  'session.set': (draft) => ({ what: sayNextSet(draft) }),
  'symptom.confirm': (draft, { data }) => ({ said: String(data.said), signs: nameSigns(draft, data.signs) }),
  'symptom.unclear': (_draft, { data }) => ({ said: String(data.said) }),
  'symptom.known': (draft, { data }) => ({ signs: nameKnownSigns(draft, data.signs) }),
  'called.called': (draft) => ({ number: planOf(draft.document).emergencyNumber }),
  'consent.about': (draft) => aboutValues(draft),
  'consent.agree': (draft) => aboutValues(draft),
  'consent.zone': (draft) => ({ zone: planOf(draft.document).zone }),
  'consent.time': (draft) => {
    const { schedule } = planOf(draft.document)
    const { text } = say(draft, 'client')
    return { time: schedule.time, days: schedule.days.map((day) => text(`common.weekday.${day}`)).join(', ') }
  },
  ...weeklyValues,
  ...whenValues,
  ...messageValues,
  ...withdrawValues,
}

function values(draft: Draft<Chart>, conversation: Conversation, words: string): Values {
  return valuesOf[words]?.(draft, conversation) ?? {}
}

function nameSigns(draft: Draft<Chart>, signs: unknown): string {
  const { text } = say(draft, 'client')
  return Array.isArray(signs) ? signs.map((sign) => text(`signs.client.${String(sign)}`)).join('; ') : ''
}

/** In the therapist's own words where there are any. */
function nameKnownSigns(draft: Draft<Chart>, signs: unknown): string {
  const { text, words } = say(draft, 'client')
  const nameOf = (sign: string): string => {
    const recorded = planOf(draft.document).knownSigns.find((known) => known.sign === sign)?.words ?? sign
    if (recorded !== sign) return recorded
    return text(words.has(`signs.known.${sign}`) ? `signs.known.${sign}` : `signs.client.${sign}`)
  }
  return Array.isArray(signs) ? signs.map((sign) => nameOf(String(sign))).join('; ') : ''
}

function aboutValues(draft: Draft<Chart>): Values {
  const plan = planOf(draft.document)
  return {
    name: plan.client.name,
    therapist: therapistNameOf(draft.document),
    number: plan.emergencyNumber,
    outOfHours: plan.outOfHoursNumber,
  }
}

function asked(draft: Draft<Chart>, conversation: Conversation): void {
  if (conversation.flow === 'symptom') waitForAnswer(draft, conversation)
  if (conversation.flow !== 'session') return
  if (conversation.state === 'set') noteAsked(draft)
  waitForSilence(draft, conversation)
}
