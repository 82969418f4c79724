/** Name and code only: a message may hold a token, a text or an address. */
export function describeError(error: unknown): { readonly error: string; readonly code: string } {
  if (!(error instanceof Error)) return { error: 'unknown', code: 'none' }
  return { error: error.name, code: 'code' in error && typeof error.code === 'string' ? error.code : 'none' }
}
