/** An error as the operating system gives it: known by its code. */
export function makeSystemError(code: string): Error {
  return Object.assign(new Error(`${code}: a failure of the disk`), { code })
}
