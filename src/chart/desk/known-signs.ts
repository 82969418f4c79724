// Long-standing signs at an enrolment: which, then each in turn in words, side, area and worst level.
import type { Answer, Option } from '#src/conversation/question.ts'
import type { Conversation } from '#src/conversation/flow.ts'
import type { DescribedSign } from '#src/conversation/questions/known-sign.ts'
import type { KnownSign } from '#src/domain/plan.ts'
import { mostKnownSigns } from '#src/domain/plan.ts'
import { mayBeKnown } from '#src/domain/triage.ts'
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'
import type { ActionHandler } from '../turn.ts'
import { setOnTop } from './set-on-top.ts'

type Data = Conversation['data']

function chosenSigns(data: Data): readonly string[] {
  const chosen = data['known-signs']
  return Array.isArray(chosen) ? chosen.map(String) : []
}

function described(data: Data): readonly DescribedSign[] {
  const done = data['known-signs-described']
  return Array.isArray(done) ? (done as readonly DescribedSign[]) : []
}

/** The sign that is being asked about; null once each is described. */
export function knownSignInTurn(data: Data): string | null {
  return chosenSigns(data)[described(data).length] ?? null
}

/** One that an older version of the questions took without a description stands by its name alone. */
export function knownSignsOf(data: Data): readonly KnownSign[] {
  const details = described(data)
  return chosenSigns(data).map((sign, index) => ({ sign, ...(details[index] ?? { words: sign, side: null, area: '', worst: 0 }) }))
}

export function knownSignFacts(data: Data): { readonly hasTooManyKnownSigns: boolean; readonly hasNextKnownSign: boolean } {
  return { hasTooManyKnownSigns: chosenSigns(data).length > mostKnownSigns, hasNextKnownSign: knownSignInTurn(data) !== null }
}

/** The urgent ones that the screen asks about: what is routine locks nobody anyway. */
export function knownSignOptions(draft: Draft<Desk>): readonly Option[] {
  const { triage } = draft.content
  return triage.signs
    .filter((sign) => sign.level === 'urgent' && triage.groups.includes(sign.group) && mayBeKnown(sign, triage))
    .map((sign) => ({ value: sign.id, words: `signs.therapist.${sign.id}` }))
}

export const knownSignActions: Readonly<Record<string, ActionHandler<Desk>>> = {
  'say-too-many-known-signs': (draft, { data }) => {
    const values = { count: chosenSigns(data).length, most: mostKnownSigns }
    draft.say(draft.words(draft.document.language).say('enrolment.too-many-known-signs', values))
  },
  'begin-known-signs': (draft, { data }) => setOnTop(draft, { ...data, 'known-signs-described': [] }),
  'keep-known-sign': (draft, { data }, answer: Answer) => setOnTop(draft, { ...data, 'known-signs-described': [...described(data), answer] }),
}
