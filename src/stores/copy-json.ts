/** A copy that shares nothing and holds only what JSON can hold, as it would come back from a disk. */
export function copyJson<T>(value: T): T {
  return JSON.parse(JSON.stringify(value)) as T
}
