// Decides: whether there is a session today, from the pain right now.
// Source: pain-monitoring model for the zones; pain of 8 or more and above usual by more than two is urgent (our choice).
// Reviewed 2026-11.
import type { Protocol } from '#src/domain/protocol.ts'
import type { Pain } from '#src/domain/set-report.ts'
import { painZone } from './pain-zone.ts'

export type BeforeSession = 'train' | 'train eased' | 'no session' | 'urgent'

export function beforeSession(pain: Pain, usual: Pain, protocol: Protocol): BeforeSession {
  if (pain >= protocol.pain.urgentFrom && pain > usual + protocol.pain.urgentAboveUsualBy) return 'urgent'
  return ({ comfortable: 'train', amber: 'train eased', red: 'no session' } as const)[painZone(pain, usual, protocol)]
}
