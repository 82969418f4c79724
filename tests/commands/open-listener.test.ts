// Callers who keep a line open and say nothing, or only half of it.
import { once } from 'node:events'
import { connect, type Socket } from 'node:net'
import { afterEach, describe, expect, it } from 'vitest'
import { openListener, type Listener } from '#src/commands/start/open-listener.ts'
import type { HttpRoute } from '#src/ports/http-route.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'

const route: HttpRoute = { path: '/here', method: 'POST', refuse: () => null, answer: async (body) => ({ status: 200, body: `heard ${body}` }) }
const head = 'POST /here HTTP/1.1\r\nHost: clinic.example\r\n'
let listener: Listener | null = null
afterEach(async () => {
  await listener?.close()
  listener = null
})

async function open(patienceMs = 50): Promise<Socket> {
  const failed = (error: Error): never => {
    throw error
  }
  listener ??= await openListener({ host: '127.0.0.1', port: 0, routes: [route], log: new RecordingLog(), failed, patienceMs })
  const socket = connect(Number(new URL(listener.address).port), '127.0.0.1')
  await once(socket, 'connect')
  return socket
}

/** Everything that is answered until the other side closes the line. */
async function answerTo(socket: Socket, said: string): Promise<string> {
  const heard: string[] = []
  socket.setEncoding('utf8').on('data', (text: string) => heard.push(text))
  socket.write(said)
  await once(socket, 'close')
  return heard.join('')
}

describe('a caller who does not finish', () => {
  it.each([
    ['the head', head],
    ['the body', `${head}Content-Length: 10\r\n\r\nhalf`],
  ])('%s is told 408, and the line is closed', async (_what, said) => {
    expect(await answerTo(await open(), said)).toMatch(/^HTTP\/1\.1 408 /)
  })

  it('does not keep another from being answered', async () => {
    const slow = await open()
    const closed = answerTo(slow, head)
    const quick = await answerTo(await open(), `${head}Connection: close\r\nContent-Length: 2\r\n\r\nhi`)
    expect(quick).toMatch(/^HTTP\/1\.1 200 [^]*heard hi$/)
    expect(await closed).toMatch(/^HTTP\/1\.1 408 /)
  })
})

describe('lines that are kept open', () => {
  it('are 256 at most, and one more is turned away', async () => {
    const patienceMs = 30_000
    const kept: Socket[] = []
    for (let count = 0; count < 256; count += 1) kept.push(await open(patienceMs))
    const [last] = kept
    const oneMore = await open(patienceMs)
    expect(await answerTo(oneMore, head)).toBe('')
    expect(await answerTo(last!, `${head}Connection: close\r\nContent-Length: 2\r\n\r\nhi`)).toMatch(/^HTTP\/1\.1 200 /)
    for (const socket of kept) socket.destroy()
  })
})
