import type { Browser, BrowserContext, Locator, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest'
import { describeInBrowser, openChromium } from '#tests/support/browser.ts'
import { ana, createDisk, plain, therapist, type BrowserClinic } from './browser-clinic.ts'
import { measureContrast } from './contrast.ts'
import { startScripted } from './scripted-clinic.ts'

const wide = { width: 1280, height: 800 }
const narrow = { width: 375, height: 740 }

describeInBrowser('the page in a browser', () => {
  let browser: Browser
  let context: BrowserContext
  let page: Page
  let clinic: BrowserClinic
  let complaints: string[]
  const disk = createDisk()

  beforeAll(async () => void (browser = await openChromium()), 60_000)
  afterAll(() => browser.close(), 60_000)

  beforeEach(async () => {
    clinic = await startScripted(disk)
    context = await browser.newContext({ viewport: wide })
    page = await openPage()
  }, 60_000)

  afterEach(async () => {
    await context.close()
    await clinic.channel.stop()
    await disk.saveHistory(null)
  }, 60_000)

  async function openPage(path = '/'): Promise<Page> {
    const opened = await context.newPage()
    opened.setDefaultTimeout(15_000)
    complaints = []
    opened.on('pageerror', (error) => complaints.push(error.message))
    opened.on('console', (line) => line.type() === 'error' && complaints.push(line.text()))
    await opened.goto(`${clinic.channel.address()}${path}`)
    await opened.getByText('Connected', { exact: true }).waitFor()
    return opened
  }

  const pane = (name: 'client' | 'therapist') => page.locator(`[data-pane="${name}"]`)
  const textsOf = (place: Locator) => place.locator('.item .text').allTextContents()

  async function say(name: 'client' | 'therapist', text: string): Promise<void> {
    await pane(name).getByRole('textbox').fill(text)
    await pane(name).getByRole('button', { name: 'Send', exact: true }).click()
  }

  async function restart(): Promise<void> {
    const port = Number(new URL(clinic.channel.address()).port)
    await clinic.channel.stop()
    await page.getByText('Not connected.').waitFor()
    clinic = await startScripted({ ...disk, port })
  }

  it('carries a conversation: typed, asked, pressed, amended', async () => {
    await say('client', 'begin')
    await pane('client').getByRole('button', { name: '7', exact: true }).click()
    await pane('client').getByText('Thank you.').waitFor()

    expect(await textsOf(pane('client'))).toEqual(['begin', 'Worst pain: 7', '7', 'Thank you. Rest for a minute.'])
    expect(await pane('client').locator('.answer').count()).toBe(0)
    expect(clinic.received.map((inbound) => inbound.kind)).toEqual(['message', 'press'])
    expect(complaints).toEqual([])
  })

  it('is served from one place, and asks nobody else for anything', async () => {
    const asked: string[] = []
    page.on('request', (request) => asked.push(new URL(request.url()).origin))
    await page.reload()
    await page.getByText('Connected', { exact: true }).waitFor()
    expect(new Set(asked)).toEqual(new Set([clinic.channel.address()]))
  })

  it('shows texts word for word', async () => {
    const text = '<img src=x onerror=alert(1)> & *not bold*\n  second line'
    await clinic.channel.send(ana, plain(text), 'reply')
    await pane('client').getByText('second line').waitFor()
    expect(await textsOf(pane('client'))).toEqual([text])
    expect(await page.locator('img').count()).toBe(0)
  })

  it('sends with Enter and breaks the line with Shift and Enter', async () => {
    const box = pane('client').getByRole('textbox')
    await box.fill('one')
    await box.press('Shift+Enter')
    await box.pressSequentially('two')
    await box.press('Enter')
    await pane('client').getByText('You wrote').waitFor()
    expect(clinic.received).toMatchObject([{ text: 'one\ntwo' }])
    expect(await box.inputValue()).toBe('')
  })

  it('is worked by keyboard alone, and the focus stays where the answer was', async () => {
    await pane('client').getByRole('textbox').focus()
    await page.keyboard.type('begin')
    await page.keyboard.press('Enter')
    await pane('client').getByRole('button', { name: '2', exact: true }).focus()
    await page.keyboard.press('Space')
    await pane('client').getByText('Thank you.').waitFor()
    expect(await page.locator(':focus').textContent()).toContain('Worst pain: 2')
  })

  it('tells an alert from a reply by an icon and a word', async () => {
    await clinic.channel.send(therapist, plain('A reply'), 'reply')
    await clinic.channel.send(therapist, plain('An alert'), 'alert')
    await clinic.channel.send(therapist, plain('A reminder'), 'reminder')
    await pane('therapist').getByText('A reminder').waitFor()
    const marks = await pane('therapist').locator('.message').evaluateAll((items) =>
      items.map((item) => [item.querySelector('.label')?.textContent ?? null, item.querySelectorAll('.label svg').length]),
    )
    expect(marks).toEqual([[null, 0], ['Alert', 1], ['Reminder', 0]])
  })

  it('marks what the other person in a pane got, until it is looked at', async () => {
    const second = { channel: 'browser', address: 'second' }
    await clinic.channel.send(second, plain('one'), 'alert')
    await clinic.channel.send(second, plain('two'), 'alert')
    const mark = pane('therapist').getByRole('button', { name: 'Sol Second: 2 new' })
    await mark.click()
    await pane('therapist').getByText('two').waitFor()
    await mark.waitFor({ state: 'detached' })
    expect(await pane('therapist').getByRole('combobox').inputValue()).toBe('second')

    await page.reload()
    await pane('therapist').getByText('two').waitFor()
    await pane('therapist').getByRole('combobox').selectOption('therapist')
    await pane('therapist').getByText('No messages yet.').waitFor()
    expect(await pane('therapist').locator('option').allTextContents()).toEqual(['Thea Therapist', 'Sol Second'])
  })

  it('keeps what was begun for one person while another is shown', async () => {
    const box = pane('client').getByRole('textbox')
    await box.fill('half a sent')
    await pane('client').getByRole('combobox').selectOption('client-2')
    expect(await box.inputValue()).toBe('')
    await pane('client').getByRole('combobox').selectOption('client-1')
    expect(await box.inputValue()).toBe('half a sent')
  })

  it('shows the same after a reload in the middle, and the open question still works', async () => {
    await say('client', 'begin')
    await pane('client').getByRole('button', { name: '3', exact: true }).waitFor()
    const before = await textsOf(pane('client'))
    await page.reload()
    await pane('client').getByRole('button', { name: '3', exact: true }).click()
    await pane('client').getByText('Thank you.').waitFor()
    expect(await textsOf(pane('client'))).toEqual([before[0], 'Worst pain: 3', '3', 'Thank you. Rest for a minute.'])
  })

  it('goes on after a server restart, with the open question and with what was written meanwhile, once', async () => {
    await say('client', 'begin')
    await pane('client').getByRole('button', { name: '4', exact: true }).waitFor()
    const port = Number(new URL(clinic.channel.address()).port)
    await clinic.channel.stop()
    await page.getByText('Not connected.').waitFor()
    await say('client', 'first')
    await say('client', 'second')
    await pane('client').getByText('Waiting for the connection').first().waitFor()

    clinic = await startScripted({ ...disk, port })
    await pane('client').getByText('You wrote: second').waitFor()

    const texts = await textsOf(pane('client'))
    expect(texts).toEqual(['begin', expect.stringContaining('Worst pain'), 'first', 'You wrote: first', 'second', 'You wrote: second'])
    expect(clinic.received).toMatchObject([{ text: 'first' }, { text: 'second' }])
    expect(await pane('client').locator('.state').count()).toBe(0)
    expect(await pane('client').getByRole('button', { name: '4', exact: true }).isVisible()).toBe(true)
  })

  it('sends what was written without a connection also from a page that starts anew', async () => {
    await page.routeWebSocket('**/socket', (socket) => void socket.close())
    await page.reload()
    await page.getByText('Not connected.').waitFor()
    await say('client', 'kept')
    await pane('client').getByText('Waiting for the connection').waitFor()
    expect(clinic.received).toEqual([])

    const kept = await page.evaluate<Record<string, string>>('({ ...sessionStorage })')
    const later = await context.newPage()
    await later.addInitScript(`Object.assign(sessionStorage, ${JSON.stringify(kept)})`)
    await later.goto(clinic.channel.address())
    await later.getByText('You wrote: kept').waitFor()
    expect(clinic.received.length).toBe(1)
  })

  it('opens an invitation that a therapist clicks, and no other address becomes a link', async () => {
    await say('therapist', 'invite')
    const links = pane('therapist').locator('.item a')
    await links.first().waitFor()
    expect(await links.evaluateAll((found) => found.map((link) => link.getAttribute('href')))).toEqual(['/?join=token-1'])
    await links.first().click()

    await pane('client').getByText('Welcome. The invitation is token-1.').waitFor()
    const joined = clinic.received.find((inbound) => inbound.kind === 'join')
    expect(joined?.from.address).toMatch(/^client-[0-9a-z]{8}$/)
    expect(await pane('client').getByRole('combobox').inputValue()).toBe(joined?.from.address)
    expect(page.url()).toBe(`${clinic.channel.address()}/`)
  })

  it.each([
    ['see http://own.example/?join=Ab_-9.', ['Ab_-9']],
    ['(http://own.example/?join=a) http://own.example/?join=b', ['a', 'b']],
    ['http://own.example/?join=a&x=1', []],
    ['http://own.example/?x=1', []],
    ['http://own.example/join?join=a', []],
    ['http://own.example/?join=a#b', []],
    ['http://own.example/?join=', []],
    ['http://own.example/?join=a%20b', []],
    [`http://own.example/?join=${'x'.repeat(65)}`, []],
    ['https://own.example/?join=a', []],
    ['http://own.example:81/?join=a', []],
    ['http://own.example@elsewhere.example/?join=a', []],
    ['http://someone@own.example/?join=a', []],
    ['http://own.example.elsewhere.example/?join=a', []],
    ['javascript:alert(1)//http://elsewhere.example/?join=a', []],
  ])('finds in "%s" the invitations %j, and leaves every letter of the text', async (text, tokens) => {
    const parts = await page.evaluate<{ kind: string; text: string; token?: string }[]>(
      `import('/join-link.js').then((module) => module.splitAtJoinLinks(${JSON.stringify(text)}, ['http://own.example']))`,
    )
    expect(parts.map((part) => part.text).join('')).toBe(text)
    expect(parts.flatMap((part) => (part.kind === 'link' ? [part.token] : []))).toEqual(tokens)
  })

  it('opens an invitation by its address once, also when the page is reloaded', async () => {
    page = await openPage('/?join=token-2')
    await pane('client').getByText('Welcome. The invitation is token-2.').waitFor()
    await page.reload()
    await pane('client').getByText('Welcome. The invitation is token-2.').waitFor()
    expect(clinic.received.map((inbound) => inbound.kind)).toEqual(['join'])
  })

  it('says so when an invitation is not complete', async () => {
    page = await openPage('/?join=a%20b')
    expect(await page.getByRole('alert').textContent()).toBe('This invitation link is not complete. Ask for it again.')
    expect(clinic.received).toEqual([])
  })

  it('moves the clinic’s clock and shows where it stands', async () => {
    const clock = page.getByRole('region', { name: 'The clinic\'s clock' })
    await clock.getByText('Mon 23 Nov 2026, 18:00').waitFor()
    await clock.getByRole('button', { name: 'Next morning' }).click()
    await clock.getByText('Tue 24 Nov 2026, 08:00').waitFor()
    await say('client', 'good morning')
    await pane('client').locator('.stamp').getByText('Tue 24 Nov 2026, 08:00').first().waitFor()
  })

  it('does not read a whole chat out when another person is chosen, but does read what comes', async () => {
    const log = pane('client').getByRole('log', { includeHidden: true })
    await clinic.channel.send({ channel: 'browser', address: 'client-2' }, plain('Hello Bo'), 'reply')
    const during = await pane('client').getByRole('combobox').evaluate((select) => {
      const page = select.ownerDocument
      Object.assign(select, { value: 'client-2' })
      select.dispatchEvent(new page.defaultView!.Event('change'))
      return page.querySelector('[data-pane="client"] .log')!.getAttribute('aria-live')
    })
    await pane('client').locator('.log[aria-live="polite"]').waitFor()
    expect(during).toBe('off')
    expect(await log.getAttribute('aria-label')).toBe('Messages of Bo Example')
  })

  it('offers what is new below to whoever reads further up, and jumps there', async () => {
    for (let count = 1; count <= 40; count += 1) await clinic.channel.send(ana, plain(`Line ${count}`), 'reply')
    await pane('client').getByText('Line 40').waitFor()
    await pane('client').locator('.log').evaluate((log) => void (log.scrollTop = 0))
    await clinic.channel.send(ana, plain('Line 41'), 'reply')
    await pane('client').getByRole('button', { name: 'New messages below' }).click()
    await pane('client').getByText('Line 41').waitFor()
    const gap = await pane('client').locator('.log').evaluate((log) => log.scrollHeight - log.scrollTop - log.clientHeight)
    expect(Math.abs(gap)).toBeLessThanOrEqual(1)
  })

  it('shows one chat at a time on a narrow screen, and marks the other', async () => {
    await page.setViewportSize(narrow)
    expect(await pane('client').isVisible()).toBe(true)
    expect(await pane('therapist').isVisible()).toBe(false)
    await say('client', 'begin')
    await pane('client').getByRole('button', { name: '9', exact: true }).click()
    const other = page.getByRole('button', { name: 'Therapist 1 new' })
    await other.click()
    await pane('therapist').getByText('Please acknowledge.').waitFor()

    expect(await pane('client').isVisible()).toBe(false)
    expect(await page.locator('.switch button').evaluateAll((all) => all.map((one) => one.getAttribute('aria-pressed')))).toEqual(['false', 'true'])
    await other.waitFor({ state: 'detached' })
    expect(await page.locator('html').evaluate((root) => root.scrollWidth)).toBe(narrow.width)
  })

  it('has names for all its controls', async () => {
    await say('client', 'begin')
    await pane('client').getByRole('button', { name: '0', exact: true }).waitFor()
    const nameless = await page.locator('button, select, textarea, a, [role="log"]').evaluateAll((all) =>
      all.filter((one) => {
        const label = one.id === '' ? null : one.ownerDocument.querySelector(`label[for="${one.id}"]`)
        const name = one.getAttribute('aria-label') ?? label?.textContent ?? one.textContent ?? ''
        return name.trim() === ''
      }).length,
    )
    expect(nameless).toBe(0)
    // At least 24 by 24 CSS pixels (WCAG 2.2, 2.5.8).
    const sizes = await page.locator('button:visible, select:visible, textarea:visible').evaluateAll((all) =>
      all.map((one) => Math.min(one.getBoundingClientRect().width, one.getBoundingClientRect().height)),
    )
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(24)
  })

  it.each(['light', 'dark'] as const)('is readable in the %s scheme', async (colorScheme) => {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' })
    await say('client', 'begin')
    await pane('client').getByRole('button', { name: '8', exact: true }).click()
    await clinic.channel.send({ channel: 'browser', address: 'second' }, plain('one'), 'reminder')
    await pane('therapist').getByRole('button', { name: 'Sol Second: 1 new' }).waitFor()
    await say('therapist', 'invite')
    await pane('therapist').locator('a').waitFor()
    await clinic.channel.send(therapist, { text: 'Seen?', buttons: [[{ label: 'Acknowledge', data: 'ack' }]] }, 'reminder')
    await pane('therapist').getByRole('button', { name: 'Acknowledge' }).waitFor()

    const measured = await measureContrast(page)

    // At least 4.5:1 for text (WCAG 2.2, 1.4.3).
    expect(measured.length).toBeGreaterThan(25)
    expect(measured.filter((one) => one.ratio < 4.5)).toEqual([])
  })

  it('moves nothing for whoever asked for reduced motion', async () => {
    const animations = async () => {
      await clinic.channel.send(ana, plain('one'), 'reply')
      await pane('client').getByText('one').last().waitFor()
      return await pane('client').locator('.item').last().evaluate((item) => item.ownerDocument.defaultView!.getComputedStyle(item).animationName)
    }
    expect(await animations()).toBe('arrive')
    await page.emulateMedia({ reducedMotion: 'reduce' })
    expect(await animations()).toBe('none')
  })

  it('comes back after a restart without a line doubled', async () => {
    for (const text of ['one', 'two', 'three']) await say('client', text)
    await pane('client').getByText('You wrote: three').waitFor()
    const before = await textsOf(pane('client'))
    await restart()
    await page.getByText('Connected', { exact: true }).waitFor()
    await say('client', 'four')
    await pane('client').getByText('You wrote: four').waitFor()
    expect(await textsOf(pane('client'))).toEqual([...before, 'four', 'You wrote: four'])
  })
})
