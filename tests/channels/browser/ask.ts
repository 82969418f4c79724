import { request, type IncomingHttpHeaders } from 'node:http'

export interface Answer {
  readonly status: number
  readonly headers: IncomingHttpHeaders
  readonly body: string
}

/** A plain request that, unlike `fetch`, may carry any Host header and follows nothing. */
export function ask(address: string, path: string, headers: Record<string, string> = {}, method = 'GET'): Promise<Answer> {
  const { hostname, port } = new URL(address)
  return new Promise((resolve, reject) => {
    const asked = request({ hostname, port, path, method, headers }, (response) => {
      let body = ''
      response.setEncoding('utf8')
      response.on('data', (piece: string) => (body += piece))
      response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body }))
    })
    asked.on('error', reject)
    asked.end()
  })
}
