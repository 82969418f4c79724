import type { IncomingMessage, ServerResponse } from 'node:http'
import type { HttpAnswer, HttpRoute } from '#src/ports/http-route.ts'
import type { Log } from '#src/ports/log.ts'

/** Our choice: an update is a few kilobytes, and nothing else is posted here. */
export const mostBodyBytes = 1_000_000

/**
 * Answers a request for the path of one of the routes. False, with nothing done, where the path is nobody's.
 * What may be said of a failure is its class: a message could hold a text.
 */
export async function serveRoutes(routes: readonly HttpRoute[], request: IncomingMessage, response: ServerResponse, log: Log): Promise<boolean> {
  const path = (request.url ?? '').replace(/[?#].*$/s, '')
  const onPath = routes.filter((route) => route.path === path)
  if (onPath.length === 0) return false
  const route = onPath.find(({ method }) => method === request.method || (method === 'GET' && request.method === 'HEAD'))
  if (route === undefined) {
    writeAnswer(request, response, { status: 405, body: 'Not with that method.\n', headers: { Allow: onPath.map(({ method }) => method).join(', ') } }, 'close')
    return true
  }
  const refusal = route.refuse(request.headers)
  if (refusal !== null) writeAnswer(request, response, refusal, 'close')
  else await serve(route, request, response, log)
  return true
}

export const notFound: HttpAnswer = { status: 404, body: 'There is nothing here.\n' }

async function serve(route: HttpRoute, request: IncomingMessage, response: ServerResponse, log: Log): Promise<void> {
  const body = await readBody(request)
  if (body === 'broken-off') return
  if (body === 'too-large') return writeAnswer(request, response, { status: 413, body: 'Too large.\n' }, 'close')
  try {
    writeAnswer(request, response, await route.answer(body.text), 'keep')
  } catch (error) {
    log.error('request-failed', { error: error instanceof Error ? error.name : 'unknown' })
    writeAnswer(request, response, { status: 500, body: 'That failed.\n' }, 'close')
  }
}

type Body = { readonly text: string } | 'too-large' | 'broken-off'

async function readBody(request: IncomingMessage): Promise<Body> {
  if (Number(request.headers['content-length'] ?? 0) > mostBodyBytes) return 'too-large'
  const pieces: Buffer[] = []
  let size = 0
  try {
    // The stream stays open after a break, so that the answer still gets out.
    for await (const piece of request.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
      size += piece.length
      if (size > mostBodyBytes) return 'too-large'
      pieces.push(piece)
    }
  } catch {
    return 'broken-off'
  }
  return { text: Buffer.concat(pieces).toString('utf8') }
}

/** `close`: the rest of what is being sent is not waited for. */
export function writeAnswer(request: IncomingMessage, response: ServerResponse, { status, body, type, headers }: HttpAnswer, connection: 'keep' | 'close'): void {
  response.writeHead(status, {
    'Content-Type': type ?? 'text/plain; charset=utf-8',
    'Content-Length': Buffer.byteLength(body),
    'Cache-Control': 'no-store',
    'X-Content-Type-Options': 'nosniff',
    ...headers,
    ...(connection === 'close' ? { Connection: 'close' } : {}),
  })
  response.end(request.method === 'HEAD' ? undefined : body)
}
