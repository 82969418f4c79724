import type { Content } from '#src/content/content.ts'
import type { SignId } from '#src/domain/identifier.ts'
import type { AlertLevel } from '#src/domain/triage.ts'

export function signLevel(content: Content, sign: SignId): AlertLevel {
  const found = content.triage.signs.find((one) => one.id === sign)
  if (!found) throw new RangeError(`no sign ${sign}`)
  return found.level
}
