import { brandAs, type SignId } from '#src/domain/identifier.ts'
import type { Pain } from '#src/domain/set-report.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { raiseFlags } from './raise-flags.ts'
import { say } from './say.ts'
import { flagOf } from './signs.ts'

/** Pain right now that is severe and well above usual, wherever it was asked. */
export function raiseSeverePain(draft: Draft<Chart>, painNow: Pain): void {
  const sign = brandAs<SignId>('severe-pain-now')
  const words = say(draft, 'therapist').text('alert.pain-now', { pain: painNow })
  raiseFlags(draft, [flagOf(draft, sign)], { words, isConfirmed: true })
}
