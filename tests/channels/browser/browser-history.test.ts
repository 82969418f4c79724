import { describe, expect, it } from 'vitest'
import { ana, createDisk, openSocket, plain, therapist } from './browser-clinic.ts'
import { createClinicRig, hello, openChat, question } from './clinic-rig.ts'

const start = createClinicRig()

describe('a restart', () => {
  it('brings back the conversation with its open question', async () => {
    const disk = createDisk()
    const clinic = await start(undefined, disk)
    const page = await openChat(clinic)
    page.send(hello)
    await page.next('taken')
    await clinic.channel.send(ana, plain('Good morning'), 'reply')
    const sent = await clinic.channel.send(ana, question, 'reply')
    page.send({ kind: 'watch', pane: 'client', address: 'client-1', since: 0 })
    const before = await page.next('chat', (frame) => frame.isWhole)
    await clinic.channel.stop()

    const restarted = await start(undefined, disk)
    const later = await openSocket(restarted.channel.address())
    later.send({ kind: 'watch', pane: 'client', address: 'client-1', since: 0 })

    const after = await later.next('chat')
    expect(after).toEqual(before)
    expect(after.items.map((item) => item.kind)).toEqual(['said', 'message', 'message'])
    const ref = sent.kind === 'sent' ? sent.ref! : ''
    expect(await restarted.channel.amend(ana, ref, 'Ready: yes')).toEqual({ kind: 'sent', ref })
    const { items } = await later.next('chat', (frame) => !frame.isWhole)
    expect(items).toMatchObject([{ id: ref, text: 'Ready: yes', isOpen: false }])
    expect(items[0]!.seq).toBeGreaterThan(Math.max(...after.items.map((item) => item.seq)))
  })

  it('never gives an old name to a new message, also when the last lines were not saved', async () => {
    const names: (string | null)[] = []
    for (const clinic of [await start(), await start()]) {
      const sent = await clinic.channel.send(ana, plain('one'), 'reply')
      names.push(sent.kind === 'sent' ? sent.ref : null)
    }
    expect(new Set(names).size).toBe(2)
  })

  it('waits for what is under way, and keeps it', async () => {
    const disk = createDisk()
    let commit = (): void => undefined
    const clinic = await start(() => new Promise((resolve) => (commit = resolve)), disk)
    const page = await openChat(clinic)
    page.send(hello)
    await page.next('chat')

    let hasStopped = false
    const stopping = clinic.channel.stop().then(() => (hasStopped = true))
    await new Promise((resolve) => page.socket.on('close', resolve))
    expect(hasStopped).toBe(false)
    commit()
    await stopping

    expect(await disk.loadHistory()).toMatchObject({ chats: [{ items: [{ id: 'sent-0001', isTaken: true }] }] })
  })

  it('comes only after the last save', async () => {
    const disk = createDisk()
    let write = (): void => undefined
    const clinic = await start(undefined, {
      ...disk,
      saveHistory: (value) => new Promise((resolve) => (write = () => resolve(disk.saveHistory(value)))),
    })
    await clinic.channel.send(ana, plain('one'), 'reply')
    const address = clinic.channel.address()
    const order: string[] = []
    const stopping = clinic.channel.stop().then(() => order.push('stopped'))
    await fetch(address).catch(() => order.push('closed'))
    write()
    await stopping
    expect(order).toEqual(['closed', 'stopped'])
    expect(await disk.loadHistory()).toMatchObject({ chats: [{ items: [{ text: 'one' }] }] })
  })

  it.each([
    ['damaged', { format: 1, chats: [{ address: 'client-1' }] }],
    ['newer', { format: 2, chats: [] }],
  ])('is refused while the kept chats are %s, and leaves them alone', async (_what, kept) => {
    const saved: unknown[] = []
    const options = { loadHistory: async () => kept, saveHistory: async (value: unknown) => void saved.push(value) }
    await expect(start(undefined, options)).rejects.toMatchObject({ name: 'ChannelError', code: 'browser-history-damaged' })
    expect(saved).toEqual([])
  })

  it('is not needed to go on after a save that failed', async () => {
    let isFull = true
    let kept: unknown = null
    const clinic = await start(undefined, {
      saveHistory: async (value) => {
        if (isFull) throw new RangeError('disk full')
        kept = value
      },
    })
    await clinic.channel.send(ana, plain('one'), 'reply')
    isFull = false
    await clinic.channel.send(ana, plain('two'), 'reply')
    await clinic.channel.stop()

    expect(kept).toMatchObject({ chats: [{ items: [{ text: 'one' }, { text: 'two' }] }] })
    const warning = { level: 'warn', event: 'browser-history-not-saved', fields: { error: 'RangeError' } }
    expect(clinic.logged).toContainEqual(warning)
  })
})

describe('what is kept', () => {
  it('is the last 200 lines of each person', async () => {
    const clinic = await start()
    for (let count = 1; count <= 205; count += 1) await clinic.channel.send(ana, plain(String(count)), 'reply')
    await clinic.channel.send(therapist, plain('one'), 'reply')
    const page = await openSocket(clinic.channel.address())
    page.send({ kind: 'watch', pane: 'client', address: 'client-1', since: 0 })
    const { items } = await page.next('chat')
    const kept = Array.from({ length: 200 }, (_, index) => String(index + 6))
    expect(items.map((item) => item.kind === 'message' && item.text)).toEqual(kept)
  })

  it('is neither an invitation’s token nor anything of a person who is forgotten', async () => {
    const disk = createDisk()
    const clinic = await start(undefined, disk)
    const page = await openChat(clinic, 'client-9')
    page.send({ kind: 'join', id: 'sent-0001', from: 'client-9', token: 'never-kept-token' })
    await page.next('taken')
    await clinic.channel.send({ channel: 'browser', address: 'client-9' }, plain('Welcome, Ana Example'), 'reply')
    await clinic.channel.send(therapist, plain('Ana has joined'), 'reply')

    await clinic.channel.forget('client-9')

    const kept = JSON.stringify(await disk.loadHistory())
    expect(kept).toContain('Ana has joined')
    expect(kept).not.toMatch(/client-9|never-kept-token|Welcome/)
    expect(await page.next('chat', (frame) => frame.isWhole)).toMatchObject({ address: 'client-9', items: [] })
    page.send({ kind: 'watch', pane: 'client', address: 'client-9', since: 2 })
    expect(await page.next('chat')).toEqual({ kind: 'chat', address: 'client-9', isWhole: true, items: [] })
  })

  it('never shows up in the log', async () => {
    const clinic = await start(async () => {
      throw new Error('Hello from client-1')
    })
    const page = await openChat(clinic)
    page.send(hello)
    await page.next('refusal')
    await clinic.channel.send(ana, question, 'alert')
    expect(JSON.stringify(clinic.logged)).not.toMatch(/Hello|client-1|ready/)
  })
})
