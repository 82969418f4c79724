// One turn of a conversation: what a person said or pressed goes to the top of the stack, and the stack is brought to its
// next open question. The same for clients and therapists; what differs is handed in as a `Party`.
import type { Conversation, Facts, Flow, FlowAction, FlowEvent, StateMeta } from '#src/conversation/flow.ts'
import type { Answer, Option, Question, Understood } from '#src/conversation/question.ts'
import type { AnswerContext, LabelledOption } from '#src/conversation/questions/question-kind.ts'
import { buttonsOf, readAnswer, readPress } from '#src/conversation/questions/registry.ts'
import type { Reading } from '#src/conversation/reading/read-message.ts'
import { metaOf, resume, runFlow } from '#src/conversation/run-flow.ts'
import type { Words } from '#src/content/content.ts'
import type { Contact, Urgency } from '#src/domain/message.ts'
import type { StoredDocument } from '#src/ports/store.ts'
import type { ConversationState } from './conversation-state.ts'
import type { Draft } from './draft.ts'

export type Speaking = StoredDocument & ConversationState
export type Values = Readonly<Record<string, string | number>>

/** An action's work on the document; `conversation` is as it was before the transition. */
export type ActionHandler<D extends Speaking> = (
  draft: Draft<D>,
  conversation: Conversation,
  answer: Answer,
  params: FlowAction['params'],
) => void

/** How one kind of document takes part in conversations. */
export interface Party<D extends Speaking> {
  readonly words: (document: D, draft: Draft<D>) => Words
  readonly contact: (document: D) => Contact | null
  readonly facts: (draft: Draft<D>, conversation: Conversation) => Facts
  readonly actions: Readonly<Record<string, ActionHandler<D>>>
  readonly options: (draft: Draft<D>, conversation: Conversation, from: string) => readonly Option[]
  /** The values that the wording of a question needs. */
  readonly values: (draft: Draft<D>, conversation: Conversation, words: string) => Values
  /** Called when a question has been asked. */
  readonly asked: (draft: Draft<D>, conversation: Conversation, question: Question) => void
  readonly urgency: (draft: Draft<D>) => Urgency
}

/** The open question, if there is one. */
export interface OpenQuestion {
  readonly flow: Flow
  readonly conversation: Conversation
  readonly question: Question
  readonly words: string
}

export function openQuestion<D extends Speaking>(draft: Draft<D>): OpenQuestion | null {
  const conversation = draft.document.conversations.at(-1)
  const flow = conversation && draft.flows.get(conversation.flow)
  const meta = flow && conversation && metaOf(flow, conversation.state)
  if (!conversation || !flow || !meta || !('asks' in meta)) return null
  return { flow, conversation, question: meta.asks, words: meta.words }
}

/** Puts a conversation on top; it speaks when the turn is brought on. */
export function push<D extends Speaking>(
  draft: Draft<D>,
  flowId: string,
  state?: string,
  data: Conversation['data'] = {},
): void {
  const flow = draft.flows.get(flowId)
  if (!flow) throw new RangeError(`no flow ${flowId}`)
  const initial = String(flow.machine.getInitialSnapshot({} as never).value)
  const conversation: Conversation = { flow: flowId, version: flow.version, state: state ?? initial, data }
  draft.converse({ conversations: [...draft.document.conversations, conversation] })
}

/** Sends an event to the top conversation. False where it does not take it. */
export function deliver<D extends Speaking>(draft: Draft<D>, party: Party<D>, event: FlowEvent): boolean {
  const stack = draft.document.conversations
  const stored = stack.at(-1)
  const flow = stored && draft.flows.get(stored.flow)
  if (!stored || !flow) return false
  const { conversation } = resume(flow, stored)
  const advance = runFlow(flow, conversation, party.facts(draft, conversation), event)
  if (advance === null) return false
  const answer: Answer = event.type === 'answer' ? event.value : null
  const keeps = advance.actions.some((action) => action.type === 'keep')
  const data = keeps ? { ...conversation.data, [conversation.state]: answer } : conversation.data
  const moved = { ...conversation, state: advance.state, data: withoutChosen(data) }
  const below = stack.slice(0, -1)
  draft.converse({ conversations: advance.isDone ? below : [...below, moved] })
  for (const action of advance.actions) {
    if (action.type === 'keep') continue
    const handler = party.actions[action.type]
    if (!handler) throw new RangeError(`no handler for the action ${action.type}`)
    handler(draft, moved, answer, action.params)
  }
  return true
}

/** Brings the stack to its next open question and asks it. */
export function bringOn<D extends Speaking>(draft: Draft<D>, party: Party<D>): void {
  walkOn(draft, party)
  askTop(draft, party)
}

/** Brings the stack to its next open question, through all that only decides. */
export function walkOn<D extends Speaking>(draft: Draft<D>, party: Party<D>): void {
  for (;;) {
    resumeTop(draft, party)
    const top = draft.document.conversations.at(-1)
    const flow = top && draft.flows.get(top.flow)
    const meta: StateMeta | null = top && flow ? metaOf(flow, top.state) : null
    if (!top || !flow || meta === null || 'asks' in meta) break
    if (!deliver(draft, party, { type: 'go' })) throw new RangeError(`${top.flow}.${top.state} decides nothing`)
  }
}

/**
 * A conversation stored by an older version is migrated; one of an unknown flow is closed with a notice. True where what
 * was asked is no longer what is asked now.
 */
function resumeTop<D extends Speaking>(draft: Draft<D>, party: Party<D>): boolean {
  const stack = draft.document.conversations
  const top = stack.at(-1)
  if (!top) return false
  const flow = draft.flows.get(top.flow)
  if (!flow) {
    draft.converse({ conversations: stack.slice(0, -1) })
    // What it had gathered goes into the record.
    draft.record('conversation-closed', 'nuchal', { flow: top.flow, version: top.version, state: top.state, data: top.data })
    draft.say(party.words(draft.document, draft).say('common.question-gone'))
    resumeTop(draft, party)
    return true
  }
  const { conversation, isMoved } = resume(flow, top)
  if (isMoved) draft.record('conversation-moved', 'nuchal', { flow: top.flow, from: top.state, to: conversation.state })
  if (conversation !== top) draft.converse({ conversations: [...stack.slice(0, -1), conversation] })
  return isMoved
}

/** Before an answer is taken: if the open question is one of an older version, it is asked as it is now. True then. */
export function renewQuestion<D extends Speaking>(draft: Draft<D>, party: Party<D>): boolean {
  if (!resumeTop(draft, party)) return false
  closePrompt(draft, party, null)
  bringOn(draft, party)
  return true
}

function askTop<D extends Speaking>(draft: Draft<D>, party: Party<D>): void {
  const open = openQuestion(draft)
  const contact = party.contact(draft.document)
  if (!open || !contact) return
  const words = party.words(draft.document, draft)
  const number = draft.document.promptsAsked + 1
  const question = words.say(`${open.words}.ask`, party.values(draft, open.conversation, open.words))
  const text = [...draft.notes.splice(0), question].join('\n\n')
  const buttons = buttonsOf(open.question, contextOf(draft, party, open)).map((row) =>
    row.map(({ label, value }) => ({ label, data: `p:${number}:${value}` })),
  )
  closePrompt(draft, party, null)
  const effect = draft.send(contact, { text, buttons }, party.urgency(draft))
  draft.converse({ promptsAsked: number, prompt: { number, effect, text, askedAt: draft.at } })
  party.asked(draft, open.conversation, open.question)
}

/** Removes the buttons of the open question; what was pressed is written under it. */
export function closePrompt<D extends Speaking>(draft: Draft<D>, party: Party<D>, pressed: string | null): void {
  const { prompt } = draft.document
  const contact = party.contact(draft.document)
  if (!prompt) return
  if (contact) draft.amend(contact, prompt.effect, pressed === null ? prompt.text : `${prompt.text}\n→ ${pressed}`)
  draft.converse({ prompt: null })
}

/** Sends what has been noted and not gone out with a question. */
export function flushNotes<D extends Speaking>(draft: Draft<D>, party: Party<D>): void {
  const contact = party.contact(draft.document)
  const text = draft.notes.splice(0).join('\n\n')
  if (contact && text !== '') draft.send(contact, { text, buttons: [] }, party.urgency(draft))
}

/** A typed answer to the open question; `next` is called once it is taken, before anything else is asked. */
export function takeText<D extends Speaking>(draft: Draft<D>, party: Party<D>, text: string, reading: Reading, next?: () => void): void {
  const open = openQuestion(draft)
  if (open) take(draft, party, open, readAnswer(open.question, text, reading, contextOf(draft, party, open)), null, next)
}

/** The same, for words that have been heard as something else already: false, and nothing is said, where they answer nothing. */
export function takeTextIfAnswer<D extends Speaking>(draft: Draft<D>, party: Party<D>, text: string, reading: Reading): boolean {
  const open = openQuestion(draft)
  if (!open) return false
  const understood = readAnswer(open.question, text, reading, contextOf(draft, party, open))
  if (understood.kind === 'answer') take(draft, party, open, understood, null)
  return understood.kind === 'answer'
}

/** A pressed answer; the caller has checked that the press belongs to the open prompt. */
export function takePress<D extends Speaking>(draft: Draft<D>, party: Party<D>, value: string): void {
  const open = openQuestion(draft)
  if (!open) return
  const context = contextOf(draft, party, open)
  const buttons = buttonsOf(open.question, context).flat()
  const pressed = buttons.find((button) => button.value === value)
  // A value that no button of this question carries can only come from elsewhere.
  if (!pressed) return sayOutdated(draft, party)
  take(draft, party, open, readPress(open.question, value, context), pressed.label)
}

function take<D extends Speaking>(
  draft: Draft<D>,
  party: Party<D>,
  open: OpenQuestion,
  understood: Understood,
  pressed: string | null,
  next?: () => void,
): void {
  if (understood.kind === 'unusable') {
    sayUnclear(draft, party, open, understood)
    return bringOn(draft, party)
  }
  if (understood.kind === 'toggle') {
    toggle(draft, open.conversation, understood.value)
    return bringOn(draft, party)
  }
  closePrompt(draft, party, pressed)
  deliver(draft, party, { type: 'answer', value: understood.value })
  next?.()
  bringOn(draft, party)
}

/** Some questions have words of their own for somebody whom they could not understand: they may be frightened. */
function sayUnclear<D extends Speaking>(draft: Draft<D>, party: Party<D>, open: OpenQuestion, { reason, values = {} }: Extract<Understood, { kind: 'unusable' }>): void {
  const words = party.words(draft.document, draft)
  const own = `${open.words}.unclear`
  if (words.has(own)) return draft.say(words.say(own, party.values(draft, open.conversation, open.words)))
  draft.say(words.say(`common.unusable.${reason}`, values))
  if (words.has(`${open.words}.example`)) draft.say(words.say(`${open.words}.example`))
}

/** What is chosen of several so far lives under this name, which is no state's. */
const chosenKey = '(chosen)'

function toggle<D extends Speaking>(draft: Draft<D>, conversation: Conversation, value: string): void {
  const chosen = chosenOf(conversation)
  const next = chosen.includes(value) ? chosen.filter((item) => item !== value) : [...chosen, value]
  const stack = draft.document.conversations
  const top = { ...conversation, data: { ...conversation.data, [chosenKey]: next } }
  draft.converse({ conversations: [...stack.slice(0, -1), top] })
}

function chosenOf(conversation: Conversation): readonly string[] {
  const chosen = conversation.data[chosenKey]
  return Array.isArray(chosen) ? (chosen as readonly string[]) : []
}

function withoutChosen(data: Conversation['data']): Conversation['data'] {
  if (!(chosenKey in data)) return data
  const { [chosenKey]: _, ...rest } = data
  return rest
}

export function sayOutdated<D extends Speaking>(draft: Draft<D>, party: Party<D>): void {
  const words = party.words(draft.document, draft)
  draft.say(words.say(draft.document.prompt ? 'common.outdated.with-question' : 'common.outdated.without-question'))
  flushNotes(draft, party)
}

export function contextOf<D extends Speaking>(draft: Draft<D>, party: Party<D>, open: OpenQuestion): AnswerContext {
  const words = party.words(draft.document, draft)
  const options = optionsOf(open.question, (from) => party.options(draft, open.conversation, from))
  const { lexicon } = draft.language(words.language)
  return { words, lexicon, options: options.map((option) => labelled(option, words)), chosen: chosenOf(open.conversation) }
}

function optionsOf(question: Question, from: (name: string) => readonly Option[]): readonly Option[] {
  if (question.kind === 'choice' || question.kind === 'choice-or-pain') return question.options
  return question.kind === 'open-choice' || question.kind === 'several' || question.kind === 'date' ? from(question.from) : []
}

function labelled(option: Option, words: Words): LabelledOption {
  const label = option.label ?? (option.words === undefined ? option.value : words.say(option.words))
  const phrases = (key: string | undefined): readonly string[] => (key === undefined ? [] : words.say(key).split('|'))
  return {
    value: option.value,
    label,
    saidBy: option.saidBy ?? [],
    saidAs: phrases(option.saidAs),
    saidIn: phrases(option.saidIn),
    unless: phrases(option.unless),
  }
}
