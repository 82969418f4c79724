import { readdir, readFile } from 'node:fs/promises'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ask } from './ask.ts'
import { startClinic, type BrowserClinic } from './browser-clinic.ts'

const folder = new URL('../../../src/channels/browser/page/', import.meta.url)
let clinic: BrowserClinic
let address: string

beforeAll(async () => {
  clinic = await startClinic()
  address = clinic.channel.address()
})
afterAll(() => clinic.channel.stop())

describe('the page', () => {
  it('is served at / with every protection a page can ask of a browser', async () => {
    const { status, headers, body } = await ask(address, '/')
    const { date, connection, 'keep-alive': alive, 'content-length': length, ...rest } = headers
    expect([status, Number(length)]).toEqual([200, Buffer.byteLength(body)])
    expect([typeof date, typeof connection, typeof alive]).toEqual(['string', 'string', 'string'])
    expect(rest).toEqual({
      'cache-control': 'no-store',
      'content-security-policy':
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; " +
        `connect-src 'self' ws://${address.slice(7)}; frame-ancestors 'none'; base-uri 'none'; form-action 'none'; ` +
        "require-trusted-types-for 'script'; trusted-types 'none'",
      'content-type': 'text/html; charset=utf-8',
      'cross-origin-opener-policy': 'same-origin',
      'cross-origin-resource-policy': 'same-origin',
      'permissions-policy': 'camera=(), microphone=(), geolocation=()',
      'referrer-policy': 'no-referrer',
      'x-content-type-options': 'nosniff',
      'x-frame-options': 'DENY',
    })
  })

  it('says that it is a demo with invented people and no emergency service', async () => {
    const { body } = await ask(address, '/')
    expect(body.replace(/\s+/g, ' ')).toContain(
      'Demo clinic with invented people. This is no emergency service: in an emergency call your local emergency number.',
    )
  })

  it('serves each of its files as it is, with its type', async () => {
    const names = (await readdir(folder)).filter((name) => name !== 'index.html')
    const types = { js: 'text/javascript; charset=utf-8', css: 'text/css; charset=utf-8', svg: 'image/svg+xml' } as const
    expect(names.length).toBeGreaterThan(10)
    for (const name of names) {
      const { status, headers, body } = await ask(address, `/${name}`)
      const type = types[name.split('.').at(-1) as keyof typeof types]
      expect({ name, status, type: headers['content-type'] }).toEqual({ name, status: 200, type })
      expect(body).toBe(await readFile(new URL(name, folder), 'utf8'))
    }
  })

  it('names no address outside itself', async () => {
    const names = await readdir(folder)
    const texts = await Promise.all(names.map((name) => readFile(new URL(name, folder), 'utf8')))
    const outside = texts.flatMap((text) => text.match(/\b(?:https?|wss?):\/\/[a-z0-9.]+/gi) ?? [])
    // The name of a vocabulary, never fetched.
    expect(new Set(outside)).toEqual(new Set(['http://www.w3.org']))
  })

  const nowhere = ['/..%2fbrowser-channel.ts', '/../browser-channel.ts', '/page/main.js', '/main.js/', '/socket', '/index.html', '//']
  it.each(nowhere)('has nothing at %s', async (path) => {
    const { status } = await ask(address, path)
    expect([400, 404]).toContain(status)
  })

  it('takes no request that writes', async () => {
    const { status, headers } = await ask(address, '/', {}, 'POST')
    expect([status, headers.allow]).toEqual([405, 'GET, HEAD'])
  })

  it('answers HEAD like GET without the body', async () => {
    const got = await ask(address, '/')
    const head = await ask(address, '/', {}, 'HEAD')
    expect([head.status, head.headers['content-length'], head.body]).toEqual([200, got.headers['content-length'], ''])
  })
})
