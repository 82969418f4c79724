// The second line of defence: the Log port takes counts and codes, and a mistake that hands over more still brings nothing out.
import type { LogFields } from './ports/log.ts'

/** What stands in place of a value that must not come out. */
export const removed = '[removed]'

/** Anywhere in the name of a field, whatever its value: a number may be a pain score or a chat. */
const unsafeNames = [
  'address', 'answer', 'authorization', 'body', 'chat', 'comment', 'contact', 'control', 'cookie', 'data', 'email', 'header', 'invit', 'key',
  'label', 'link', 'message', 'name', 'note', 'pain', 'password', 'payload', 'person', 'phone', 'plan', 'query', 'reason', 'reserve', 'said', 'says',
  'secret', 'sign', 'stack', 'symptom', 'text', 'title', 'token', 'url', 'user', 'value', 'word',
] as const

/** Codes, names of classes and ids are short and have no blanks; a sentence is neither. */
const codePattern = /^[\w.:/-]{1,100}$/
/** A bot's token, wherever it may stand. */
const tokenPattern = /\d{3,}:[\w-]{10,}/

/** The fields as they may be written. */
export function keepSafe(fields: object): LogFields {
  return Object.fromEntries(Object.entries(fields).map(([name, value]) => [safeName(name), isSafe(name, value) ? (value as LogFields[string]) : removed]))
}

/** An event is one of our own fixed words. */
export function keepSafeEvent(event: string): string {
  return /^[a-z][a-z0-9-]{0,60}$/.test(event) ? event : removed
}

function safeName(name: string): string {
  return /^[A-Za-z]\w{0,40}$/.test(name) ? name : removed
}

function isSafe(name: string, value: unknown): boolean {
  const lowered = name.toLowerCase()
  if (unsafeNames.some((unsafe) => lowered.includes(unsafe))) return false
  if (typeof value === 'string') return codePattern.test(value) && !tokenPattern.test(value)
  return typeof value === 'number' || typeof value === 'boolean'
}
