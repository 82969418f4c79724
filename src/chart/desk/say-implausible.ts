// A maximal test that can hardly be right is asked again, with what seems wrong and what may have been meant.
import type { Conversation } from '#src/conversation/flow.ts'
import type { MeasuredForce } from '#src/conversation/questions/measured-force.ts'
import type { Direction } from '#src/domain/direction.ts'
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'
import { doubtOf } from './doubt.ts'
import { directionToMeasure } from './enrolment-ladders.ts'
import { directionMeasured } from './measuring-actions.ts'
import { setOnTop } from './set-on-top.ts'

const askedIn: Readonly<Record<string, { readonly answer: string; readonly direction: (data: Conversation['data']) => Direction | null }>> = {
  measuring: { answer: 'trials', direction: directionMeasured },
  enrolment: { answer: 'measurement', direction: directionToMeasure },
}

export function sayImplausible(draft: Draft<Desk>, { flow, data }: Conversation): void {
  const asked = askedIn[flow]
  const direction = asked?.direction(data) ?? null
  const typed = asked && data[asked.answer]
  const doubt = direction === null ? null : doubtOf(direction, typed, data.doubted)
  if (direction === null || doubt === null || typed === undefined) return
  const words = draft.words(draft.document.language)
  const { unit } = typed as unknown as MeasuredForce
  const values = { direction: words.say(`common.direction.${direction}`), value: doubt.value, unit }
  const meant = doubt.suggestion === null ? 'none' : words.say('measuring.force', { force: doubt.suggestion.value, unit: doubt.suggestion.unit })
  draft.say(words.say(`measuring.doubt.${doubt.reason}`, { ...values, meant }))
  if (doubt.mayBeConfirmed) draft.say(words.say('measuring.doubt.confirm'))
  setOnTop(draft, { ...data, doubted: doubt.mayBeConfirmed ? typed : null })
}
