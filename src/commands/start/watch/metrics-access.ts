import { isLoopback } from '#src/channels/browser/access.ts'
import { isSameSecret } from '#src/channels/is-same-secret.ts'
import type { HttpAnswer, HttpHeaders, HttpRoute } from '#src/ports/http-route.ts'

const unset: HttpAnswer = { status: 403, body: 'Set ACCESS_SECRET and send it as a bearer token, or set HOST to a loopback address.\n' }
const unknown: HttpAnswer = { status: 401, body: 'Send ACCESS_SECRET as a bearer token.\n', headers: { 'WWW-Authenticate': 'Bearer' } }

/** How many alerts a clinic has is nobody else's business: a secret that is set is asked for, and beyond this machine there must be one. */
export function guardMetrics(host: string, secret: string | null): HttpRoute['refuse'] {
  if (secret === null) return () => (isLoopback(host) ? null : unset)
  return (headers) => (isSameSecret(bearerOf(headers), secret) ? null : unknown)
}

function bearerOf({ authorization }: HttpHeaders): string | null {
  return typeof authorization === 'string' ? (/^Bearer +(.+)$/i.exec(authorization)?.[1]?.trim() ?? null) : null
}
