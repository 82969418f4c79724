import { describe, expect, it } from 'vitest'
import type { BrowserOptions } from '#src/channels/browser/browser-channel.ts'
import type { ClockControl } from '#src/channels/browser/clock-control.ts'
import type { People } from '#src/channels/browser/people.ts'
import { ana, demoPeople, openSocket, plain } from './browser-clinic.ts'
import { createClinicRig } from './clinic-rig.ts'

const startWith = createClinicRig()
const start = (options: Partial<BrowserOptions>) => startWith(undefined, options)

/** A clinic's clock that stands at one of a list of times. */
function createDemoClock() {
  let index = 0
  const times = ['2026-11-23T08:00', '2026-11-24T08:00']
  const moved: string[] = []
  const control: ClockControl = {
    now: async () => ({ iso: times[index]!, zone: 'Europe/Berlin', text: `at ${times[index]}` }),
    choices: async () => [{ id: 'next-morning', label: 'Next morning' }],
    async move(id) {
      moved.push(id)
      index += 1
    },
  }
  return { control, moved }
}

describe('the people of the panes', () => {
  it('are asked for again after everything that was sent, and told when they changed', async () => {
    let people: People = demoPeople
    const clinic = await start({ panes: async () => people })
    const page = await openSocket(clinic.channel.address())
    expect(await page.next('people')).toEqual({ kind: 'people', people: demoPeople })

    people = { ...demoPeople, clients: [{ address: 'client-1', name: 'Ana Renamed' }] }
    page.send({ kind: 'say', id: 'sent-0001', from: 'client-1', text: 'Hello' })
    expect(await page.next('people')).toEqual({ kind: 'people', people })

    people = demoPeople
    await clinic.channel.send(ana, plain('one'), 'reply')
    expect(await page.next('people')).toEqual({ kind: 'people', people: demoPeople })
  })

  it('include whoever opened an invitation, without a name until they are enrolled', async () => {
    const clinic = await start({})
    const page = await openSocket(clinic.channel.address())
    await page.next('people')
    page.send({ kind: 'join', id: 'sent-0001', from: 'client-9', token: 'abc' })
    const { people } = await page.next('people')
    expect(people).toEqual({ ...demoPeople, clients: [...demoPeople.clients, { address: 'client-9', name: null }] })
  })

  it('stay as they were while the clinic cannot say', async () => {
    let isBroken = false
    const panes = async () => {
      if (isBroken) throw new SyntaxError('Ana Example')
      return demoPeople
    }
    const clinic = await start({ panes })
    const page = await openSocket(clinic.channel.address())
    await page.next('people')
    isBroken = true
    await clinic.channel.send(ana, plain('one'), 'reply')
    await page.next('mark')
    await clinic.channel.stop()

    const warnings = clinic.logged.filter((line) => line.level === 'warn')
    expect(warnings).toContainEqual({ level: 'warn', event: 'browser-people-unknown', fields: { error: 'SyntaxError' } })
    expect(JSON.stringify(warnings)).not.toContain('Ana')
    expect(page.frames.filter((frame) => frame.kind === 'people')).toEqual([{ kind: 'people', people: demoPeople }])
  })
})

describe('the clinic’s clock', () => {
  it('is shown, moves by a choice, and stamps what is said', async () => {
    const { control, moved } = createDemoClock()
    const clinic = await start({ clockControl: control })
    const page = await openSocket(clinic.channel.address())
    page.send({ kind: 'watch', pane: 'client', address: 'client-1', since: 0 })
    const first = await page.next('clock')
    expect(first.clock).toEqual({
      now: { iso: '2026-11-23T08:00', zone: 'Europe/Berlin', text: 'at 2026-11-23T08:00' },
      choices: [{ id: 'next-morning', label: 'Next morning' }],
    })

    page.send({ kind: 'move', id: 'move-0001', choice: 'next-morning' })
    const second = await page.next('clock')
    expect(second.clock?.now.text).toBe('at 2026-11-24T08:00')
    expect(await page.next('taken')).toEqual({ kind: 'taken', id: 'move-0001' })
    await clinic.channel.send(ana, plain('Good morning'), 'reply')

    const { items } = await page.next('chat')
    expect(items).toMatchObject([{ text: 'Good morning', stamp: 'at 2026-11-24T08:00' }])
    expect(moved).toEqual(['next-morning'])
  })

  it('moves by nothing that is not offered', async () => {
    const { control, moved } = createDemoClock()
    const clinic = await start({ clockControl: control })
    const page = await openSocket(clinic.channel.address())
    page.send({ kind: 'move', id: 'move-0001', choice: 'next-year' })
    expect(await page.next('refusal')).toEqual({ kind: 'refusal', id: 'move-0001', code: 'unknown' })
    expect(moved).toEqual([])
  })

  it('moves once at a time', async () => {
    const { control, moved } = createDemoClock()
    let arrive = (): void => undefined
    let begin = (): void => undefined
    const begun = new Promise<void>((resolve) => (begin = resolve))
    const move = async (id: string) => {
      begin()
      await new Promise<void>((resolve) => (arrive = resolve))
      await control.move(id)
    }
    const clinic = await start({ clockControl: { ...control, move } })
    const page = await openSocket(clinic.channel.address())

    page.send({ kind: 'move', id: 'move-0001', choice: 'next-morning' })
    page.send({ kind: 'move', id: 'move-0002', choice: 'next-morning' })
    expect(await page.next('refusal')).toEqual({ kind: 'refusal', id: 'move-0002', code: 'busy' })
    await begun
    arrive()
    expect(await page.next('taken')).toEqual({ kind: 'taken', id: 'move-0001' })
    expect(moved).toEqual(['next-morning'])
  })

  it('says so when it could not move, and can be moved afterwards', async () => {
    const { control, moved } = createDemoClock()
    let isBroken = true
    const move = async (id: string) => {
      if (isBroken) throw new TypeError('no such time')
      await control.move(id)
    }
    const clinic = await start({ clockControl: { ...control, move } })
    const page = await openSocket(clinic.channel.address())
    page.send({ kind: 'move', id: 'move-0001', choice: 'next-morning' })
    expect(await page.next('refusal')).toEqual({ kind: 'refusal', id: 'move-0001', code: 'failed' })
    isBroken = false
    page.send({ kind: 'move', id: 'move-0002', choice: 'next-morning' })
    expect(await page.next('taken')).toEqual({ kind: 'taken', id: 'move-0002' })
    expect(moved).toEqual(['next-morning'])
  })

  it('does not exist where none is given', async () => {
    const clinic = await start({})
    const page = await openSocket(clinic.channel.address())
    expect((await page.next('hello')).clock).toBeNull()
    page.send({ kind: 'move', id: 'move-0001', choice: 'next-morning' })
    expect(await page.next('refusal')).toEqual({ kind: 'refusal', id: 'move-0001', code: 'unknown' })
  })
})
