// What the product says, in the clinic's own words, so that a changed wording leaves nothing unseen.
import { createProduct } from '#src/app.ts'
import type { ShownMessage } from '#tests/support/bot-api/chat-book.ts'

const wording = createProduct('demo').content.languages.get('en')!.words

/** The questions of which a set's report is made. */
export const painAsked = lastLine(wording.say('session.pain.ask'))
export const controlAsked = lastLine(wording.say('session.control.ask'))
export const reserveAsked = lastLine(wording.say('session.reserve.ask'))

const outdated: readonly string[] = [wording.say('common.outdated.with-question'), wording.say('common.outdated.without-question')]
const askedAgain = wording.say('common.unheard.presses')
const askedAgainAfterADay = firstSentence(wording.say('common.unheard.everything', { number: '112' }))

/** A press was not taken: its question was answered already, or asked again since. */
export function saysOutdated({ sent }: ShownMessage): boolean {
  return outdated.includes(sent.text)
}

/** The network was not heard for a while: a question in the same message is one that was asked before. */
export function saysUnheard({ sent }: ShownMessage): boolean {
  return sent.text.includes(askedAgain) || sent.text.includes(askedAgainAfterADay)
}

export function lastLine(text: string): string {
  return text.split('\n').at(-1) ?? ''
}

function firstSentence(text: string): string {
  return text.split('. ')[0] ?? ''
}
