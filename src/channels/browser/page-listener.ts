import type { IncomingMessage, RequestListener, ServerResponse } from 'node:http'
import type { Access } from './access.ts'
import type { PageFile } from './page-files.ts'

/** Everything comes from here and nothing leaves; no script but our files, no frame, no base, no form that navigates. */
function policyFor(host: string): string {
  return [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "img-src 'self'",
    // Older engines do not count a socket of the same host as 'self'.
    `connect-src 'self' ws://${host}`,
    "frame-ancestors 'none'",
    "base-uri 'none'",
    "form-action 'none'",
    "require-trusted-types-for 'script'",
    "trusted-types 'none'",
  ].join('; ')
}

const fixedHeaders = {
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(), microphone=(), geolocation=()',
  'Cache-Control': 'no-store',
}

interface Answer {
  readonly status: number
  readonly headers: Readonly<Record<string, string>>
  readonly body: Buffer | string
}

const secretNeeded =
  "This chat needs its access secret. Open it from the address bar with ?secret= and the secret at the end."

export function createPageListener(access: Access, files: ReadonlyMap<string, PageFile>): RequestListener {
  return (request, response) => {
    const { status, headers, body } = answer(request, access, files)
    response.writeHead(status, {
      ...fixedHeaders,
      'Content-Security-Policy': policyFor(access.isHostAllowed(request.headers.host) ? request.headers.host! : ''),
      'Content-Length': Buffer.byteLength(body),
      ...headers,
    })
    finish(request, response, body)
  }
}

function answer(request: IncomingMessage, access: Access, files: ReadonlyMap<string, PageFile>): Answer {
  if (!access.isHostAllowed(request.headers.host)) return plain(403, 'This chat is not served under that name.')
  if (request.method !== 'GET' && request.method !== 'HEAD') return plain(405, 'Only read here.', { Allow: 'GET, HEAD' })
  // The base only makes the path readable; where the request came from was checked above.
  if (!URL.canParse(request.url ?? '', 'http://page.invalid')) return plain(400, 'Not an address of this chat.')
  const url = new URL(request.url ?? '', 'http://page.invalid')

  const given = url.pathname === '/' ? url.searchParams.get('secret') : null
  if (given !== null) {
    const cookie = access.logIn(given)
    if (cookie !== null) return plain(303, '', { Location: withoutSecret(url), 'Set-Cookie': cookie })
  }
  if (!access.isLoggedIn(request.headers.cookie)) return plain(403, secretNeeded)

  const file = files.get(url.pathname)
  if (file === undefined) return plain(404, 'There is nothing here.')
  return { status: 200, headers: { 'Content-Type': file.type }, body: file.body }
}

/** The secret leaves the address bar at once; an invitation stays. */
function withoutSecret(url: URL): string {
  const token = url.searchParams.get('join')
  return token === null ? '/' : `/?join=${encodeURIComponent(token)}`
}

function plain(status: number, body: string, headers: Readonly<Record<string, string>> = {}): Answer {
  return { status, headers: { 'Content-Type': 'text/plain; charset=utf-8', ...headers }, body }
}

function finish(request: IncomingMessage, response: ServerResponse, body: Buffer | string): void {
  if (request.method === 'HEAD') response.end()
  else response.end(body)
}
