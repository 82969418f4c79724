import { createServer } from 'node:net'
import { once } from 'node:events'
import { describe, expect, it } from 'vitest'
import { checkBinding, createAccess, isLoopback } from '#src/channels/browser/access.ts'
import type { BrowserOptions } from '#src/channels/browser/browser-channel.ts'
import { ChannelError } from '#src/ports/channel.ts'
import { ask } from './ask.ts'
import { openSocket, startClinic, statusOfUpgrade } from './browser-clinic.ts'
import { createClinicRig } from './clinic-rig.ts'

const secret = 'a long demo secret'
const startClinicHere = createClinicRig()

async function start(options: Partial<BrowserOptions> = {}): Promise<string> {
  return (await startClinicHere(undefined, options)).channel.address()
}

async function refusalOf(act: () => unknown): Promise<{ code: string; message: string }> {
  try {
    await act()
  } catch (error) {
    if (error instanceof ChannelError) return { code: error.code, message: error.message }
    throw error
  }
  throw new Error('it was not refused')
}

describe('where the browser chat may listen', () => {
  it.each(['127.0.0.1', '127.8.9.10', '::1', 'localhost'])('counts %s as this machine only', (host) => {
    expect(isLoopback(host)).toBe(true)
    expect(() => checkBinding(host, null)).not.toThrow()
  })

  const reachable = ['0.0.0.0', '::', '192.0.2.7', '128.0.0.1', '::2', 'localhost.example', '']
  it.each(reachable)('refuses %s without a secret', async (host) => {
    const refusal = await refusalOf(() => startClinic({ host }))
    expect(refusal).toEqual({
      code: 'browser-open',
      message: `the browser chat on ${host} would be open to the network: set an access secret, or HOST to 127.0.0.1`,
    })
  })

  it('takes a secret of 16 characters and refuses one of 15, without repeating it', async () => {
    expect(() => checkBinding('0.0.0.0', 'abcdefghijklmnop')).not.toThrow()
    const refusal = await refusalOf(() => checkBinding('0.0.0.0', 'abcdefghijklmno'))
    expect(refusal.code).toBe('browser-secret-short')
    expect(refusal.message).not.toContain('abcdefghijklmno')
  })

  it('says what to change when the port is in use', async () => {
    const other = createServer().listen(0, '127.0.0.1')
    await once(other, 'listening')
    const { port } = other.address() as { port: number }

    const refusal = await refusalOf(() => startClinic({ port }))
    other.close()

    expect(refusal).toEqual({
      code: 'browser-eaddrinuse',
      message: `the browser chat on 127.0.0.1, port ${port}: the port is in use; stop what uses it, or set PORT to another`,
    })
  })

  it('says what to change when the address is not this machine’s', async () => {
    // 192.0.2.0/24 is reserved for documentation (RFC 5737), so that nobody has it.
    const refusal = await refusalOf(() => startClinic({ host: '192.0.2.7', secret }))
    expect(refusal.code).toBe('browser-eaddrnotavail')
  })
})

describe('under which names the browser chat answers', () => {
  it.each([
    ['127.0.0.1', '127.0.0.1:3000', true],
    ['127.0.0.1', 'localhost:3000', true],
    ['127.0.0.1', 'LOCALHOST:3000', true],
    ['127.0.0.1', '[::1]:3000', true],
    ['127.0.0.1', '127.0.0.1:3001', false],
    ['127.0.0.1', '127.0.0.1', false],
    ['127.0.0.1', 'rebound.example:3000', false],
    ['127.0.0.1', 'localhost.rebound.example:3000', false],
    ['127.0.0.1', '127.0.0.1:3000@rebound.example', false],
    ['127.0.0.1', '192.0.2.7:3000', false],
    ['127.0.0.1', '', false],
    ['192.0.2.7', '192.0.2.7:3000', true],
    ['192.0.2.7', 'localhost:3000', false],
    ['0.0.0.0', '192.0.2.7:3000', true],
    ['0.0.0.0', '192.0.2.7:8080', true],
    ['0.0.0.0', 'localhost:3000', true],
    ['0.0.0.0', 'rebound.example:3000', false],
    ['clinic.example', 'clinic.example:3000', true],
    ['clinic.example', 'other.example:3000', false],
  ])('listening on %s, asked as "%s": %s', (host, header, isAllowed) => {
    const access = createAccess(host, 3000, secret)
    expect(access.isHostAllowed(header)).toBe(isAllowed)
    expect(access.isOriginAllowed(`http://${header.toLowerCase()}`, header)).toBe(isAllowed)
  })

  it('takes a socket only of the very page that the host names', () => {
    const { isOriginAllowed } = createAccess('127.0.0.1', 3000, null)
    const answers = [
      undefined,
      'null',
      'http://localhost:3000',
      'https://127.0.0.1:3000',
      'http://127.0.0.1:3001',
      'http://127.0.0.1:3000/',
      'http://127.0.0.1:3000',
    ].map((origin) => isOriginAllowed(origin, '127.0.0.1:3000'))
    expect(answers).toEqual([false, false, false, false, false, false, true])
  })

  it('leaves out the port that http implies, as browsers do', () => {
    const access = createAccess('127.0.0.1', 80, null)
    expect(access.address).toBe('http://127.0.0.1')
    expect(access.isOriginAllowed('http://127.0.0.1', '127.0.0.1')).toBe(true)
  })

  it('puts an IPv6 address in brackets', () => {
    expect(createAccess('::1', 3000, null).address).toBe('http://[::1]:3000')
  })

  it('answers 403 to a page asked for under a foreign name', async () => {
    const address = await start()
    const answer = await ask(address, '/', { Host: 'rebound.example' })
    expect(answer.status).toBe(403)
    expect(answer.body).not.toContain('<html')
  })

  it('answers 403 to a socket of a foreign page, of no page, or under a foreign name', async () => {
    const address = await start()
    const own = address.slice('http://'.length)
    const statuses = [
      await statusOfUpgrade(address, { Origin: 'http://rebound.example' }),
      await statusOfUpgrade(address, { Origin: 'null' }),
      await statusOfUpgrade(address, {}),
      await statusOfUpgrade(address, { Origin: 'http://rebound.example', Host: 'rebound.example' }),
      await statusOfUpgrade(address, { Origin: address }, '/elsewhere'),
      await statusOfUpgrade(address, { Origin: address, Host: own }),
    ]
    expect(statuses).toEqual([403, 403, 403, 403, 403, 101])
  })

  it('answers 403 to the 33rd socket', async () => {
    const address = await start()
    const sockets = []
    for (let count = 0; count < 32; count += 1) sockets.push(await openSocket(address))
    expect(await statusOfUpgrade(address, { Origin: address })).toBe(403)
    await sockets[0]!.close()
    expect(await statusOfUpgrade(address, { Origin: address })).toBe(101)
  })
})

describe('the access secret', () => {
  it('is exchanged once for a cookie that scripts and other sites cannot use, and leaves the address bar', async () => {
    const address = await start({ secret })
    const answer = await ask(address, `/?secret=${encodeURIComponent(secret)}&join=abc`)
    expect(answer.status).toBe(303)
    expect(answer.headers.location).toBe('/?join=abc')
    const [cookie, ...attributes] = answer.headers['set-cookie']![0]!.split('; ')
    expect(attributes).toEqual(['Path=/', 'HttpOnly', 'SameSite=Strict'])
    expect(cookie).not.toContain(secret)
  })

  it('is needed for the page, its files and its socket', async () => {
    const address = await start({ secret })
    const login = await ask(address, `/?secret=${encodeURIComponent(secret)}`)
    const Cookie = login.headers['set-cookie']![0]!.split(';')[0]!
    const statuses = async (headers: Record<string, string>) => [
      (await ask(address, '/', headers)).status,
      (await ask(address, '/main.js', headers)).status,
      await statusOfUpgrade(address, { Origin: address, ...headers }),
    ]
    expect(await statuses({})).toEqual([403, 403, 403])
    expect(await statuses({ Cookie: `${Cookie}x` })).toEqual([403, 403, 403])
    expect(await statuses({ Cookie: Cookie.replace(/=.*/, '=') })).toEqual([403, 403, 403])
    expect(await statuses({ Cookie: `other=1; ${Cookie}` })).toEqual([200, 200, 101])
  })

  it('gives no cookie when it is wrong, and the same one after a restart when it is right', async () => {
    const first = await start({ secret })
    const second = await start({ secret })
    const wrong = await ask(first, '/?secret=another%20long%20secret')
    expect([wrong.status, wrong.headers['set-cookie']]).toEqual([403, undefined])
    const path = `/?secret=${encodeURIComponent(secret)}`
    expect((await ask(first, path)).headers['set-cookie']).toEqual((await ask(second, path)).headers['set-cookie'])
  })

  it('guards a wildcard address', async () => {
    const { port } = new URL(await start({ host: '0.0.0.0', secret }))
    expect((await ask(`http://127.0.0.1:${port}`, '/')).status).toBe(403)
  })
})
