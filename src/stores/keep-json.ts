/** Parts of what was kept before, with how many objects and lists each holds, itself counted. */
const kept = new WeakMap<object, number>()
/** Our choice: smaller ones are sooner copied than looked up. */
const remembersFrom = 5

/**
 * A frozen copy that holds only what JSON can hold, as it would come back from a disk. Whatever of it was kept before is shared
 * and not walked through again, so that a document that a step has changed in one place costs that place.
 */
export function keepJson<T>(value: T): T {
  const copy = copyOf(value, { parts: 0 })
  // As the text would: nothing at all is no JSON.
  return copy === undefined ? copyByText(value) : (copy as T)
}

interface Walked {
  /** Objects and lists so far. */
  parts: number
}

/** Undefined: JSON leaves it out. */
function copyOf(value: unknown, walked: Walked): unknown {
  if (typeof value === 'string' || typeof value === 'boolean' || value === null) return value
  // JSON has no infinities and one zero only.
  if (typeof value === 'number') return Number.isFinite(value) ? value + 0 : null
  if (typeof value === 'undefined' || typeof value === 'function' || typeof value === 'symbol') return undefined
  const known = typeof value === 'object' ? kept.get(value) : undefined
  if (known !== undefined) {
    walked.parts += known
    return value
  }
  const before = walked.parts
  walked.parts += 1
  const copy = copyInside(value, walked)
  if (typeof copy === 'object' && copy !== null) {
    Object.freeze(copy)
    if (walked.parts - before >= remembersFrom) kept.set(copy, walked.parts - before)
  }
  return copy
}

/** Plain values are walked through, since writing them out as text and reading that again costs several times as much. */
function copyInside(value: unknown, walked: Walked): unknown {
  if (Array.isArray(value) && !('toJSON' in value)) return copyList(value, walked)
  return isPlain(value) ? copyRecord(value, walked) : copyByText(value)
}

function copyList(list: readonly unknown[], walked: Walked): unknown[] {
  const copy: unknown[] = []
  for (let index = 0; index < list.length; index += 1) copy.push(copyOf(list[index], walked) ?? null)
  return copy
}

/**
 * Spread first, so that the copy has the shape of what it copies: one that is put together key by key becomes a hash table once
 * it has some twenty, which takes many times as long to spread, and a step spreads a chart again and again.
 */
function copyRecord(record: Readonly<Record<string, unknown>>, walked: Walked): Record<string, unknown> {
  const copy = { ...record }
  let isWhole = true
  for (const key of Object.keys(copy)) {
    const part = copyOf(copy[key], walked)
    copy[key] = part
    isWhole &&= part !== undefined
  }
  return isWhole ? copy : withoutNothings(copy)
}

function withoutNothings(record: Readonly<Record<string, unknown>>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(record).filter(([, part]) => part !== undefined))
}

/** A key of this name would be taken for the prototype where it is assigned. */
const unsafeKey = '__proto__'

function isPlain(value: unknown): value is Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || 'toJSON' in value) return false
  const prototype: unknown = Object.getPrototypeOf(value)
  if (prototype !== Object.prototype && prototype !== null) return false
  return !Object.hasOwn(value, unsafeKey) && Object.getOwnPropertySymbols(value).length === 0
}

function copyByText<T>(value: T): T {
  return JSON.parse(JSON.stringify(value), (_key, part: unknown) => Object.freeze(part)) as T
}

/** Of parts that are small enough: one that is larger is put together from its own, so that no text is remembered twice. */
const texts = new WeakMap<object, string>()
/** Our choice: some 2 KB. */
const remembersTextUpTo = 40

/** The very text of `JSON.stringify`, put together from the parts that were kept and written before. */
export function writeJson(value: object): string {
  return kept.has(value) || Array.isArray(value) || !isPlain(value) ? (writePart(value) ?? 'null') : writeRecord(value)
}

/** Undefined: JSON leaves it out. */
function writePart(value: unknown): string | undefined {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value)
  const text = texts.get(value)
  if (text !== undefined) return text
  const parts = kept.get(value)
  if (parts === undefined) return JSON.stringify(value)
  if (parts <= remembersTextUpTo) return writeRemembered(value)
  return Array.isArray(value) ? `[${value.map(writePart).join(',')}]` : writeRecord(value as Readonly<Record<string, unknown>>)
}

function writeRemembered(part: object): string {
  const text = JSON.stringify(part)
  texts.set(part, text)
  return text
}

function writeRecord(record: Readonly<Record<string, unknown>>): string {
  const fields: string[] = []
  for (const key of Object.keys(record)) {
    const text = writePart(record[key])
    if (text !== undefined) fields.push(`${JSON.stringify(key)}:${text}`)
  }
  return `{${fields.join(',')}}`
}

/**
 * A list with more at its end, and the oldest left out where it would be longer than `most`. Its text is remembered and grows
 * with it, since a list that gains a little with every commit would cost the more to write the longer it is. Nothing in it may
 * change any more.
 */
export function appendKept<T extends string | object>(list: readonly T[], more: readonly T[], most = Infinity): readonly T[] {
  const whole = [...list, ...more]
  const leftOut = Math.max(0, whole.length - most)
  const next = leftOut === 0 ? whole : whole.slice(leftOut)
  const fields = list.length === 0 ? [] : [(texts.get(list) ?? JSON.stringify(list)).slice(1, -1)]
  for (const part of more) fields.push(JSON.stringify(part))
  let passed = 0
  for (let index = 0; index < leftOut; index += 1) passed += JSON.stringify(whole[index]).length + 1
  texts.set(next, `[${fields.join(',').slice(passed)}]`)
  return next
}
