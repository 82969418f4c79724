import { expect, it } from 'vitest'
import { describeInBrowser } from '#tests/support/browser.ts'
import { plain } from './browser-clinic.ts'
import { createPageRig } from './page-rig.ts'

describeInBrowser('a conversation on the page', () => {
  const rig = createPageRig()

  it('carries a conversation: typed, asked, pressed, amended', async () => {
    await rig.say('client', 'begin')
    await rig.pane('client').getByRole('button', { name: '7', exact: true }).click()
    await rig.pane('client').getByText('Thank you.').waitFor()

    expect(await rig.textsOf('client')).toEqual(['begin', 'Worst pain: 7', '7', 'Thank you. Rest for a minute.'])
    expect(await rig.pane('client').locator('.answer').count()).toBe(0)
    expect(rig.clinic().received.map((inbound) => inbound.kind)).toEqual(['message', 'press'])
    expect(rig.complaints()).toEqual([])
  })

  it('sends with Enter and breaks the line with Shift and Enter', async () => {
    const box = rig.pane('client').getByRole('textbox')
    await box.fill('one')
    await box.press('Shift+Enter')
    await box.pressSequentially('two')
    await box.press('Enter')
    await rig.pane('client').getByText('You wrote').waitFor()
    expect(rig.clinic().received).toMatchObject([{ text: 'one\ntwo' }])
    expect(await box.inputValue()).toBe('')
  })

  it('is worked by keyboard alone, and the focus stays where the answer was', async () => {
    await rig.pane('client').getByRole('textbox').focus()
    await rig.page().keyboard.type('begin')
    await rig.page().keyboard.press('Enter')
    await rig.pane('client').getByRole('button', { name: '2', exact: true }).focus()
    await rig.page().keyboard.press('Space')
    await rig.pane('client').getByText('Thank you.').waitFor()
    expect(await rig.page().locator(':focus').textContent()).toContain('Worst pain: 2')
  })

  it('marks what the other person in a pane got, until it is looked at', async () => {
    const second = { channel: 'browser', address: 'second' }
    await rig.clinic().channel.send(second, plain('one'), 'alert')
    await rig.clinic().channel.send(second, plain('two'), 'alert')
    const mark = rig.pane('therapist').getByRole('button', { name: 'Sol Second: 2 new' })
    await mark.click()
    await rig.pane('therapist').getByText('two').waitFor()
    await mark.waitFor({ state: 'detached' })
    expect(await rig.pane('therapist').getByRole('combobox').inputValue()).toBe('second')

    await rig.page().reload()
    await rig.pane('therapist').getByText('two').waitFor()
    await rig.pane('therapist').getByRole('combobox').selectOption('therapist')
    await rig.pane('therapist').getByText('No messages yet.').waitFor()
    expect(await rig.pane('therapist').locator('option').allTextContents()).toEqual(['Thea Therapist', 'Sol Second'])
  })

  it('keeps what was begun for one person while another is shown', async () => {
    const box = rig.pane('client').getByRole('textbox')
    await box.fill('half a sent')
    await rig.pane('client').getByRole('combobox').selectOption('client-2')
    expect(await box.inputValue()).toBe('')
    await rig.pane('client').getByRole('combobox').selectOption('client-1')
    expect(await box.inputValue()).toBe('half a sent')
  })

  it('shows the same after a reload in the middle, and the open question still works', async () => {
    await rig.say('client', 'begin')
    await rig.pane('client').getByRole('button', { name: '3', exact: true }).waitFor()
    const before = await rig.textsOf('client')
    await rig.page().reload()
    await rig.pane('client').getByRole('button', { name: '3', exact: true }).click()
    await rig.pane('client').getByText('Thank you.').waitFor()
    expect(await rig.textsOf('client')).toEqual([before[0], 'Worst pain: 3', '3', 'Thank you. Rest for a minute.'])
  })

  it('goes on after a server restart, with the open question and with what was written meanwhile, once', async () => {
    await rig.say('client', 'begin')
    await rig.pane('client').getByRole('button', { name: '4', exact: true }).waitFor()
    await rig.stopClinic()
    await rig.say('client', 'first')
    await rig.say('client', 'second')
    await rig.pane('client').getByText('Waiting for the connection').first().waitFor()

    await rig.startClinic()
    await rig.pane('client').getByText('You wrote: second').waitFor()

    const texts = await rig.textsOf('client')
    const asked = expect.stringContaining('Worst pain')
    expect(texts).toEqual(['begin', asked, 'first', 'You wrote: first', 'second', 'You wrote: second'])
    expect(rig.clinic().received).toMatchObject([{ text: 'first' }, { text: 'second' }])
    expect(await rig.pane('client').locator('.state').count()).toBe(0)
    expect(await rig.pane('client').getByRole('button', { name: '4', exact: true }).isVisible()).toBe(true)
  })

  it('sends what was written without a connection also from a page that starts anew', async () => {
    const page = await rig.separatePage()
    await rig.visit('/')
    await page.routeWebSocket('**/socket', (socket) => void socket.close())
    await page.reload()
    await page.getByText('Not connected.').waitFor()
    await rig.say('client', 'kept')
    await rig.pane('client').getByText('Waiting for the connection').waitFor()
    expect(rig.clinic().received).toEqual([])

    const kept = await page.evaluate<Record<string, string>>('({ ...sessionStorage })')
    const later = await page.context().newPage()
    await later.addInitScript(`Object.assign(sessionStorage, ${JSON.stringify(kept)})`)
    await later.goto(rig.clinic().channel.address())
    await later.getByText('You wrote: kept').waitFor()
    expect(rig.clinic().received.length).toBe(1)
  })

  it('comes back after a restart without a line doubled', async () => {
    for (const text of ['one', 'two', 'three']) await rig.say('client', text)
    await rig.pane('client').getByText('You wrote: three').waitFor()
    const before = await rig.textsOf('client')
    await rig.stopClinic()
    await rig.startClinic()
    await rig.page().getByText('Connected', { exact: true }).waitFor()
    await rig.say('client', 'four')
    await rig.pane('client').getByText('You wrote: four').waitFor()
    expect(await rig.textsOf('client')).toEqual([...before, 'four', 'You wrote: four'])
  })

  it('sends again by itself what could not be committed, and before what was written after it', async () => {
    const page = await rig.separatePage()
    await page.clock.install()
    await rig.visit('/')
    await rig.say('client', 'stumble')
    await rig.say('client', 'after it')
    await rig.pane('client').getByText('Being sent…').nth(1).waitFor()
    await expect.poll(() => rig.clinic().received.length).toBeGreaterThan(0)
    await page.clock.runFor(3000)
    await rig.pane('client').getByText('You wrote: after it').waitFor()

    expect(await rig.textsOf('client')).toEqual(['stumble', 'You wrote: stumble', 'after it', 'You wrote: after it'])
    expect(rig.clinic().received).toMatchObject([{ text: 'stumble' }, { text: 'stumble' }, { text: 'after it' }])
    expect(await rig.pane('client').locator('.state').count()).toBe(0)
  })

  it('says what was not sent and why, and does not try again', async () => {
    for (let count = 1; count <= 100; count += 1) {
      await rig.clinic().channel.send({ channel: 'browser', address: `guest-${count}` }, plain('one'), 'reply')
    }
    await rig.open('/?join=token-3')
    await rig.pane('client').getByText('Not sent: this demo already has as many people as it can hold.').waitFor()
    await rig.page().reload()
    await rig.pane('client').getByText('Not sent: this demo').waitFor()
    expect(rig.clinic().received).toEqual([])
  })

  it('notices a line that fell silent, and opens another', async () => {
    let opened = 0
    let silent = 0
    const page = await rig.separatePage()
    await page.clock.install()
    await page.routeWebSocket('**/socket', (socket) => {
      const server = socket.connectToServer()
      const place = ++opened
      socket.onMessage((message) => void (place <= silent || server.send(message)))
      server.onMessage((message) => void (place <= silent || socket.send(message)))
    })
    await rig.visit('/')
    silent = opened
    await rig.say('client', 'into the void')
    await rig.pane('client').getByText('Being sent…').waitFor()
    expect(rig.clinic().received).toEqual([])

    await page.clock.runFor(66_000)
    await rig.pane('client').getByText('You wrote: into the void').waitFor()
    expect(opened).toBe(silent + 1)
    expect(rig.clinic().received.length).toBe(1)
  })
})
