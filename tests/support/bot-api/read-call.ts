import type { IncomingMessage } from 'node:http'

export interface ReadCall {
  readonly token: string
  readonly method: string
  /** Null where the body cannot be read. */
  readonly payload: Readonly<Record<string, unknown>> | null
}

const mostBytes = 1_000_000

/** `/bot<token>/<method>` with JSON or a query: https://core.telegram.org/bots/api#making-requests. */
export async function readCall(request: IncomingMessage): Promise<ReadCall> {
  const url = new URL(request.url ?? '/', 'http://127.0.0.1')
  const [, token = '', method = ''] = /^\/bot([^/]*)\/([^/]+)$/.exec(url.pathname) ?? []
  const query = fromQuery(url.searchParams)
  const body = await bodyOf(request)
  return { token: decodeURIComponent(token), method, payload: body === null ? null : { ...query, ...body } }
}

async function bodyOf(request: IncomingMessage): Promise<Readonly<Record<string, unknown>> | null> {
  const parts: Buffer[] = []
  let size = 0
  for await (const part of request) {
    size += (part as Buffer).length
    if (size > mostBytes) return null
    parts.push(part as Buffer)
  }
  const text = Buffer.concat(parts).toString('utf8')
  if (text === '') return {}
  const type = request.headers['content-type'] ?? ''
  if (type.startsWith('application/x-www-form-urlencoded')) return fromQuery(new URLSearchParams(text))
  // Uploads are no part of what is doubled.
  return type.startsWith('application/json') ? parseObject(text) : null
}

/** Everything but text stands as JSON in a query. */
function fromQuery(given: URLSearchParams): Readonly<Record<string, unknown>> {
  return Object.fromEntries([...given].map(([name, value]) => [name, textual.has(name) ? value : (parseAny(value) ?? value)]))
}

const textual: ReadonlySet<string> = new Set(['text', 'url', 'secret_token', 'callback_query_id'])

function parseAny(text: string): unknown {
  try {
    return JSON.parse(text) as unknown
  } catch {
    return undefined
  }
}

function parseObject(text: string): Readonly<Record<string, unknown>> | null {
  const value = parseAny(text)
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Readonly<Record<string, unknown>>) : null
}
