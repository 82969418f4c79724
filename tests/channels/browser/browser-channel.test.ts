import { describe, expect, it } from 'vitest'
import { ana, createDisk, openSocket, plain } from './browser-clinic.ts'
import { createClinicRig, hello, openChat, question } from './clinic-rig.ts'

const start = createClinicRig()
const press = { kind: 'press', id: 'sent-0001', from: 'client-1', of: 'any' }

describe('what a page sends', () => {
  it('arrives as a message, a press and a join, each under an id of the person and the page', async () => {
    const clinic = await start()
    const page = await openChat(clinic)
    const sent = await clinic.channel.send(ana, question, 'reply')
    if (sent.kind !== 'sent') throw new Error('the question was not sent')

    page.send(hello)
    page.send({ kind: 'press', id: 'sent-0002', from: 'client-1', of: sent.ref, data: 'ready:yes' })
    page.send({ kind: 'join', id: 'sent-0003', from: 'client-9', token: 'Ab_-9' })
    for (const id of ['sent-0001', 'sent-0002', 'sent-0003']) await page.next('taken', (frame) => frame.id === id)

    const newcomer = { channel: 'browser', address: 'client-9' }
    expect(clinic.received).toEqual([
      { kind: 'message', id: 'browser:client-1:sent-0001', from: ana, text: 'Hello' },
      { kind: 'press', id: 'browser:client-1:sent-0002', from: ana, data: 'ready:yes' },
      { kind: 'join', id: 'browser:client-9:sent-0003', from: newcomer, token: 'Ab_-9' },
    ])
  })

  it('is acknowledged only once it is received for good', async () => {
    let commit = (): void => undefined
    const clinic = await start(() => new Promise((resolve) => (commit = resolve)))
    const page = await openChat(clinic)

    page.send(hello)
    await page.next('chat')
    page.send({ kind: 'look' })
    await page.next('clock')
    expect(page.frames.filter((frame) => frame.kind === 'taken')).toEqual([])

    commit()
    expect(await page.next('taken')).toEqual({ kind: 'taken', id: 'sent-0001' })
  })

  it('is one event when it is sent again: meanwhile, later, and after a restart', async () => {
    const disk = createDisk()
    let commit = (): void => undefined
    const clinic = await start(() => new Promise((resolve) => (commit = resolve)), disk)
    const page = await openChat(clinic)

    page.send(hello)
    page.send(hello)
    await page.next('chat')
    page.send({ kind: 'look' })
    await page.next('clock')
    commit()
    await page.next('taken')
    await page.next('taken')
    page.send(hello)
    await page.next('taken')
    await clinic.channel.stop()
    const restarted = await start(undefined, disk)
    const later = await openChat(restarted)
    later.send(hello)
    await later.next('taken')

    expect([clinic.received.length, restarted.received.length]).toEqual([1, 0])
  })

  it('is to be sent again, and is then one line, when it could not be committed', async () => {
    let isFull = true
    const clinic = await start(async () => {
      if (isFull) throw new TypeError('Hello from Ana')
    })
    const page = await openChat(clinic)

    page.send(hello)
    expect(await page.next('refusal')).toEqual({ kind: 'refusal', id: 'sent-0001', code: 'unavailable' })
    isFull = false
    page.send(hello)
    await page.next('taken')

    expect(clinic.received.length).toBe(2)
    page.send({ kind: 'watch', pane: 'client', address: 'client-1', since: 0 })
    const { items } = await page.next('chat')
    expect(items.map((item) => ({ ...item, seq: 0 }))).toEqual([
      { kind: 'said', id: 'sent-0001', order: 1, seq: 0, stamp: null, text: 'Hello', isTaken: true },
    ])
    expect(clinic.logged.filter((line) => line.level !== 'info')).toEqual([
      { level: 'warn', event: 'browser-not-taken', fields: { error: 'TypeError' } },
    ])
  })

  it('loses control characters and halves of characters, and nothing else', async () => {
    const clinic = await start()
    const page = await openChat(clinic)
    page.send({ ...hello, text: '<b>&_*[]()~>#+-=|{}.!\\\n\tü 🙂\u0000\u001b\u0085\ud83d' })
    await page.next('taken')
    expect(clinic.received).toMatchObject([{ text: '<b>&_*[]()~>#+-=|{}.!\\\n\tü 🙂\ufffd' }])
  })

  it.each([
    ['no JSON', 'hello', null],
    ['an unknown kind', { kind: 'shout', id: 'sent-0001' }, 'sent-0001'],
    ['an unknown field', { ...hello, admin: true }, 'sent-0001'],
    ['an address with other characters', { ...hello, from: 'client 1' }, 'sent-0001'],
    ['an address in capitals', { ...hello, from: 'Client' }, 'sent-0001'],
    ['an address of 41 characters', { ...hello, from: 'a'.repeat(41) }, 'sent-0001'],
    ['no address', { ...hello, from: '' }, 'sent-0001'],
    ['a blank text', { ...hello, text: ' \n\u0000' }, 'sent-0001'],
    ['a text of 4,001 characters', { ...hello, text: 'x'.repeat(4001) }, 'sent-0001'],
    ['a press of 65 bytes', { ...press, data: `${'ü'.repeat(32)}x` }, 'sent-0001'],
    ['a token of 65 characters', { kind: 'join', id: 'sent-0001', from: 'client-1', token: 'x'.repeat(65) }, 'sent-0001'],
    ['an id that is none', { ...hello, id: '../..' }, null],
  ])('is refused and never received when it is %s', async (_what, frame, id) => {
    const clinic = await start()
    const page = await openChat(clinic)
    page.socket.send(typeof frame === 'string' ? frame : JSON.stringify(frame))
    expect(await page.next('refusal')).toEqual({ kind: 'refusal', id, code: 'malformed' })
    expect(clinic.received).toEqual([])
  })

  it.each([
    ['an address of 40 characters', { ...hello, from: 'a'.repeat(40) }],
    ['4,000 characters of three bytes', { ...hello, text: '痛'.repeat(4000) }],
    ['a press of 64 bytes', { ...press, data: 'ü'.repeat(32) }],
    ['a token of 64 characters', { kind: 'join', id: 'sent-0001', from: 'client-1', token: 'x'.repeat(64) }],
  ])('is taken up to the bound: %s', async (_what, frame) => {
    const clinic = await start()
    const page = await openChat(clinic)
    page.send(frame)
    await page.next('taken')
    expect(clinic.received.length).toBe(1)
  })

  it('closes the socket, and that one only, when it is above 16 kB', async () => {
    const clinic = await start()
    const [page, other] = [await openChat(clinic), await openChat(clinic)]
    const closed = new Promise<number>((resolve) => page.socket.on('close', resolve))
    page.socket.send(`"${'x'.repeat(16 * 1024)}"`)
    // 1009: message too big (RFC 6455, 7.4.1).
    expect(await closed).toBe(1009)
    other.send(hello)
    await other.next('taken')
  })

  it('is refused from the 101st person on, while those who are there go on', async () => {
    const clinic = await start()
    const page = await openChat(clinic)
    for (let count = 1; count <= 100; count += 1) {
      page.send({ ...hello, id: `sent-${1000 + count}`, from: `client-${count}` })
      await page.next('taken')
    }
    page.send({ ...hello, id: 'sent-2000', from: 'client-101' })
    expect(await page.next('refusal')).toEqual({ kind: 'refusal', id: 'sent-2000', code: 'full' })
    page.send({ ...hello, id: 'sent-2001', from: 'client-100' })
    await page.next('taken')
    expect(clinic.received.length).toBe(101)
    expect(await clinic.channel.send({ channel: 'browser', address: 'client-102' }, question, 'reply')).toEqual({
      kind: 'refused',
      code: 'full',
    })
  })
})

describe('what the channel sends', () => {
  it('reaches whoever shows that chat, and tells everybody that there is something new', async () => {
    const clinic = await start()
    const page = await openChat(clinic)
    const other = await openChat(clinic, 'client-2')

    const sent = await clinic.channel.send(ana, question, 'alert')

    const ref = sent.kind === 'sent' ? sent.ref : null
    const item = { kind: 'message', id: ref, order: 1, seq: 1, stamp: null, ...question, urgency: 'alert', isOpen: true }
    expect(await page.next('chat')).toEqual({ kind: 'chat', address: 'client-1', isWhole: false, items: [item] })
    expect(await page.next('mark')).toEqual({ kind: 'mark', address: 'client-1', received: 1 })
    expect(await other.next('mark')).toEqual({ kind: 'mark', address: 'client-1', received: 1 })
    expect(other.frames.filter((frame) => frame.kind === 'chat').length).toBe(1)
  })

  it('is amended in place: the text replaced, the buttons closed, nothing counted as new', async () => {
    const clinic = await start()
    const page = await openChat(clinic)
    const sent = await clinic.channel.send(ana, question, 'reply')
    const ref = sent.kind === 'sent' ? sent.ref! : ''
    await page.next('mark')

    expect(await clinic.channel.amend(ana, ref, 'Ready: yes')).toEqual({ kind: 'sent', ref })

    const { items } = await page.next('chat')
    expect(items).toMatchObject([{ id: ref, order: 1, seq: 2, text: 'Ready: yes', isOpen: false }])
    const latest = await openSocket(clinic.channel.address())
    expect((await latest.next('hello')).marks).toEqual({ 'client-1': 1 })
  })

  it('shows the label of a press, also when the message was amended under it', async () => {
    const clinic = await start()
    const page = await openChat(clinic)
    const sent = await clinic.channel.send(ana, question, 'reply')
    const ref = sent.kind === 'sent' ? sent.ref! : ''
    await clinic.channel.amend(ana, ref, 'Too late')
    page.send({ kind: 'press', id: 'sent-0002', from: 'client-1', of: ref, data: 'ready:no' })
    await page.next('taken')
    page.send({ kind: 'press', id: 'sent-0003', from: 'client-1', of: 'long-gone', data: 'ready:no' })
    await page.next('taken')

    const shown = page.frames.flatMap((frame) => (frame.kind === 'chat' ? frame.items : []))
    const labels = new Map(shown.flatMap((item) => (item.kind === 'pressed' ? [[item.id, item.label]] : [])))
    expect(labels).toEqual(new Map([['sent-0002', 'Not now'], ['sent-0003', '–']]))
    expect(clinic.received.length).toBe(2)
  })

  it('comes as a new message when what it amends is no longer kept', async () => {
    const clinic = await start()
    const sent = await clinic.channel.amend(ana, 'long-gone', 'Ready: yes')
    const page = await openSocket(clinic.channel.address())
    page.send({ kind: 'watch', pane: 'client', address: 'client-1', since: 0 })
    const { items } = await page.next('chat')
    const ref = sent.kind === 'sent' ? sent.ref : ''
    expect(items).toMatchObject([{ kind: 'message', id: ref, text: 'Ready: yes', buttons: [] }])
  })

  it('is for later before the start and after the stop, and refused to an address that cannot be', async () => {
    const clinic = await start()
    expect(await clinic.channel.send({ channel: 'browser', address: 'No Body' }, question, 'reply')).toEqual({
      kind: 'refused',
      code: 'address',
    })
    await clinic.channel.stop()
    expect(await clinic.channel.send(ana, question, 'reply')).toEqual({ kind: 'later', afterMs: 1000 })
    expect(await clinic.channel.amend(ana, 'any', 'text')).toEqual({ kind: 'later', afterMs: 1000 })
  })

  it('can be fetched from any point on after a broken line, each line once', async () => {
    const clinic = await start()
    const page = await openChat(clinic)
    for (const text of ['one', 'two', 'three']) await clinic.channel.send(ana, plain(text), 'reply')
    await page.next('chat')
    const { items } = await page.next('chat')
    const since = items[0]!.seq
    await page.close()

    const again = await openSocket(clinic.channel.address())
    again.send({ kind: 'watch', pane: 'client', address: 'client-1', since })
    const missed = await again.next('chat')
    expect(missed.isWhole).toBe(false)
    expect(missed.items).toMatchObject([{ text: 'three' }])
  })

  it('makes an invitation link to its own address', async () => {
    const clinic = await start()
    expect(await clinic.channel.invitationLink('Ab_-9')).toBe(`${clinic.channel.address()}/?join=Ab_-9`)
  })
})
