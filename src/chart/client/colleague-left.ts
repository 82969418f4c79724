// A therapist has left: whoever takes over has the client from now on, with everything that is open.
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { ToldOf } from '../event.ts'
import { sendTo } from './escalate.ts'
import { showRequest } from './requests.ts'
import { say } from './say.ts'

/** Also where they were the second contact, so that there still is one; nobody is therapist and second contact at once. */
export function hearColleagueLeft(draft: Draft<Chart>, { desk, to }: ToldOf<'colleague-left'>): void {
  const { therapist, second, colleagues } = draft.document
  const [isTherapist, isSecond] = [therapist?.desk === desk, second?.desk === desk]
  const next = isTherapist ? to : therapist
  const nextSecond = isSecond ? to : second
  const staying = colleagues.filter((card) => card.desk !== desk)
  if (!isTherapist && !isSecond && staying.length === colleagues.length) return
  draft.change({ therapist: next, second: nextSecond?.desk === next?.desk ? null : nextSecond, colleagues: staying })
  if (isTherapist || isSecond) draft.record('staff-changed', 'nuchal', { left: desk, to: to.desk, as: isTherapist ? 'therapist' : 'second' })
  if (!isTherapist || draft.document.plan === null) return
  handOn(draft, therapist?.name ?? '', to)
}

/** What nobody has seen to yet comes to the new therapist as it came to the old one; re-sending goes on as it was. */
function handOn(draft: Draft<Chart>, name: string, to: ToldOf<'colleague-left'>['to']): void {
  const lead = say(draft, 'therapist').text('alert.taken-over', { name })
  for (const alert of draft.document.alerts) sendTo(draft, alert, [to], lead)
  for (const request of draft.document.requests) if (!request.isDeclined) showRequest(draft, request)
  const { contact, standing } = draft.document
  if (contact === null || standing !== 'active') return
  draft.send(contact, { text: say(draft, 'client').text('message.other-therapist', { name: to.name }), buttons: [] }, 'reply')
}
