import { connect } from 'node:net'

export interface Brought {
  readonly status: number
  readonly allow: string | null
  readonly body: string
}

const secretHeader = 'X-Telegram-Bot-Api-Secret-Token'

/** One call as Telegram makes it; a text is sent as it is, anything else as JSON. Unseen by what stands for Telegram in a test. */
export async function bring(address: string, body: unknown, secret: string | null, method = 'POST'): Promise<Brought> {
  const headers = { 'Content-Type': 'application/json', ...(secret === null ? {} : { [secretHeader]: secret }) }
  const sent = method === 'GET' ? null : typeof body === 'string' ? body : JSON.stringify(body)
  const response = await fetch(address, { method, headers, body: sent, redirect: 'manual' })
  return { status: response.status, allow: response.headers.get('allow'), body: await response.text() }
}

/** The status line that answers a head and the pieces of a body, which need not be whole. */
export async function bringPieces(address: string, secret: string, head: string, pieces: readonly string[]): Promise<string> {
  const { hostname, port, pathname } = new URL(address)
  const socket = connect(Number(port), hostname)
  const answered = new Promise<string>((resolve, reject) => {
    socket.once('data', (data) => resolve(String(data).split('\r\n')[0] ?? ''))
    socket.once('error', reject)
  })
  socket.write(`POST ${pathname} HTTP/1.1\r\nHost: ${hostname}\r\n${secretHeader}: ${secret}\r\n${head}\r\n\r\n`)
  for (const piece of pieces) socket.write(piece)
  try {
    return await answered
  } finally {
    socket.on('error', () => undefined)
    socket.destroy()
  }
}
