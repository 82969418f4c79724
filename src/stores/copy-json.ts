/**
 * A copy that shares nothing and holds only what JSON can hold, as it would come back from a disk. Plain values are walked
 * through, since writing them out as text and reading that again costs several times as much; the rest goes by the text.
 */
export function copyJson<T>(value: T): T {
  const copy = copyOf(value)
  // As the text would: nothing at all is no JSON.
  return copy === undefined ? copyByText(value) : (copy as T)
}

/** Undefined: JSON leaves it out. */
function copyOf(value: unknown): unknown {
  if (typeof value === 'string' || typeof value === 'boolean' || value === null) return value
  // JSON has no infinities and one zero only.
  if (typeof value === 'number') return Number.isFinite(value) ? value + 0 : null
  if (typeof value === 'undefined' || typeof value === 'function' || typeof value === 'symbol') return undefined
  if (Array.isArray(value) && !('toJSON' in value)) return copyList(value)
  return isPlain(value) ? copyRecord(value) : copyByText(value)
}

function copyList(list: readonly unknown[]): unknown[] {
  const copy: unknown[] = []
  for (let index = 0; index < list.length; index += 1) copy.push(copyOf(list[index]) ?? null)
  return copy
}

function copyRecord(record: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const copy: Record<string, unknown> = {}
  for (const key of Object.keys(record)) {
    const part = copyOf(record[key])
    if (part !== undefined) copy[key] = part
  }
  return copy
}

/** A key of this name would be taken for the prototype where it is assigned. */
const unsafeKey = '__proto__'

function isPlain(value: unknown): value is Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || 'toJSON' in value) return false
  const prototype: unknown = Object.getPrototypeOf(value)
  return (prototype === Object.prototype || prototype === null) && !Object.hasOwn(value, unsafeKey)
}

function copyByText<T>(value: T): T {
  return JSON.parse(JSON.stringify(value)) as T
}
