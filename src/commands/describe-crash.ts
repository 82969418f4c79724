/** One line for an error that nobody foresaw: its class and code alone, since a message or a stack may hold what somebody wrote. */
export function describeCrash(error: unknown): string {
  const name = error instanceof Error && /^\w{1,60}$/.test(error.name) ? error.name : 'unknown'
  const code = error instanceof Error && 'code' in error && typeof error.code === 'string' && /^[\w-]{1,60}$/.test(error.code) ? `, ${error.code}` : ''
  return `Nuchal stopped because of a mistake of its own (${name}${code}). Nothing that was confirmed is lost; start it again.`
}
