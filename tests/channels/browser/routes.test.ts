import { expect, it } from 'vitest'
import type { HttpRoute } from '#src/ports/http-route.ts'
import { ask } from './ask.ts'
import { createClinicRig } from './clinic-rig.ts'

const start = createClinicRig()

it('answers the paths handed in where the page is, by their own rules of access, and leaves every other path to the page', async () => {
  const route: HttpRoute = { path: '/standing', method: 'GET', refuse: () => null, answer: async () => ({ status: 503, body: 'store' }) }
  const { channel } = await start(undefined, { host: '127.0.0.1', secret: 'a long demo secret', routes: [route] })
  // A supervisor asks by whatever name it has for this machine, and knows no secret.
  const standing = await ask(channel.address(), '/standing', { Host: 'nuchal.example' })
  const page = await ask(channel.address(), '/', { Host: 'nuchal.example' })
  const posted = await ask(channel.address(), '/standing', {}, 'POST')
  expect([standing.status, standing.body, page.status, posted.status]).toEqual([503, 'store', 403, 405])
})
