// How a therapist's desk takes part in conversations.
import type { Conversation, Facts } from '#src/conversation/flow.ts'
import type { Option } from '#src/conversation/question.ts'
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'
import type { ActionHandler, Party, Values } from '../turn.ts'
import { answeringActions } from './answering-actions.ts'
import { disabilityActions, disabilityValues } from './disability-actions.ts'
import { coverFrom, dutyActions, dutyFacts, dutyOptions, dutyValues } from './duty-actions.ts'
import { enrolmentActions, enrolmentFacts, enrolmentOptions, enrolmentValues } from './enrolment-actions.ts'
import { measuringActions, measuringFacts, measuringOptions, measuringValues } from './measuring-actions.ts'
import { placingActions, placingFacts, placingOptions, placingValues } from './placing-actions.ts'
import { sayImplausible } from './say-implausible.ts'
import { settleInAs } from './settle-in.ts'

const actions: Readonly<Record<string, ActionHandler<Desk>>> = {
  'settle-in': settleIn,
  'say-left': (draft) => draft.say(draft.words(draft.document.language).say('desk.left')),
  'clear-lock': clearLock,
  'say-implausible': sayImplausible,
  ...enrolmentActions,
  ...measuringActions,
  ...placingActions,
  ...disabilityActions,
  ...answeringActions,
  ...dutyActions,
}

export const deskParty: Party<Desk> = {
  words: (desk, draft) => draft.words(desk.language),
  contact: (desk) => desk.contact,
  facts: (draft, conversation) => factsOf[conversation.flow]?.(draft, conversation) ?? {},
  actions,
  options: (draft, conversation, from) => optionsFrom[from]?.(draft, conversation.data) ?? [],
  values: (draft, conversation, words) => valuesOf[conversation.flow]?.(draft, conversation, words) ?? {},
  asked: () => undefined,
  urgency: () => 'reply',
}

const factsOf: Readonly<Record<string, (draft: Draft<Desk>, conversation: Conversation) => Facts>> = {
  enrolment: enrolmentFacts,
  measuring: (_draft, conversation) => measuringFacts(conversation),
  placing: (_draft, conversation) => placingFacts(conversation),
  duty: dutyFacts,
}

const optionsFrom: Readonly<Record<string, (draft: Draft<Desk>, data: Conversation['data']) => readonly Option[]>> = {
  ...enrolmentOptions,
  ...placingOptions,
  ...dutyOptions,
  'directions-to-measure': (_draft, data) => measuringOptions(data),
}

const valuesOf: Readonly<Record<string, (draft: Draft<Desk>, conversation: Conversation, words: string) => Values>> = {
  enrolment: enrolmentValues,
  measuring: measuringValues,
  placing: (_draft, conversation) => placingValues(conversation),
  disability: disabilityValues,
  duty: dutyValues,
  answering: (_draft, { data }) => ({ client: String(data.client) }),
  clearing: (_draft, { data }) => ({ client: String(data.client), dose: String(data.startDose) }),
}

function settleIn(draft: Draft<Desk>, { data }: Conversation): void {
  settleInAs(draft, { name: String(data.name), zone: String(data.zone), cover: coverFrom(data) })
}

function clearLock(draft: Draft<Desk>, { data }: Conversation): void {
  draft.tell(data.chart as never, {
    kind: 'cleared',
    by: { desk: draft.document.id, name: draft.document.name },
    assessed: String(data.assessed),
    reason: String(data.reason),
    dose: data.dose === 'lowest' ? 'lowest' : 'usual',
    ...(typeof data.seenAlerts === 'number' ? { seenAlerts: data.seenAlerts } : {}),
  })
}
