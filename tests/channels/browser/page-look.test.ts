import { expect, it } from 'vitest'
import { describeInBrowser } from '#tests/support/browser.ts'
import { ana, plain, therapist } from './browser-clinic.ts'
import { measureContrast } from './contrast.ts'
import { createPageRig } from './page-rig.ts'

const narrow = { width: 375, height: 740 }

describeInBrowser('how the page looks and sounds', () => {
  const rig = createPageRig()

  it('is served from one place, and asks nobody else for anything', async () => {
    const asked: string[] = []
    rig.page().on('request', (request) => asked.push(new URL(request.url()).origin))
    await rig.page().reload()
    await rig.page().getByText('Connected', { exact: true }).waitFor()
    expect(new Set(asked)).toEqual(new Set([rig.clinic().channel.address()]))
  })

  it('shows texts word for word', async () => {
    const text = '<img src=x onerror=alert(1)> & *not bold*\n  second line'
    await rig.clinic().channel.send(ana, plain(text), 'reply')
    await rig.pane('client').getByText('second line').waitFor()
    expect(await rig.textsOf('client')).toEqual([text])
    expect(await rig.page().locator('img').count()).toBe(0)
  })

  it('tells an alert from a reply by an icon and a word', async () => {
    await rig.clinic().channel.send(therapist, plain('A reply'), 'reply')
    await rig.clinic().channel.send(therapist, plain('An alert'), 'alert')
    await rig.clinic().channel.send(therapist, plain('A reminder'), 'reminder')
    await rig.pane('therapist').getByText('A reminder').waitFor()
    const marks = await rig.pane('therapist').locator('.message').evaluateAll((items) =>
      items.map((item) => [item.querySelector('.label')?.textContent ?? null, item.querySelectorAll('.label svg').length]),
    )
    expect(marks).toEqual([[null, 0], ['Alert', 1], ['Reminder', 0]])
  })

  it('moves the clinic’s clock and shows where it stands', async () => {
    const clock = rig.page().getByRole('region', { name: 'The clinic\'s clock' })
    await clock.getByText('Mon 23 Nov 2026, 18:00').waitFor()
    await clock.getByRole('button', { name: 'Next morning' }).click()
    await clock.getByText('Tue 24 Nov 2026, 08:00').waitFor()
    await rig.say('client', 'good morning')
    await rig.pane('client').locator('.stamp').getByText('Tue 24 Nov 2026, 08:00').first().waitFor()
  })

  it('does not read a whole chat out when another person is chosen, but does read what comes', async () => {
    const log = rig.pane('client').getByRole('log', { includeHidden: true })
    await rig.clinic().channel.send({ channel: 'browser', address: 'client-2' }, plain('Hello Bo'), 'reply')
    const during = await rig.pane('client').getByRole('combobox').evaluate((select) => {
      const document = select.ownerDocument
      Object.assign(select, { value: 'client-2' })
      select.dispatchEvent(new document.defaultView!.Event('change'))
      return document.querySelector('[data-pane="client"] .log')!.getAttribute('aria-live')
    })
    await rig.pane('client').locator('.log[aria-live="polite"]').waitFor()
    expect(during).toBe('off')
    expect(await log.getAttribute('aria-label')).toBe('Messages of Bo Example')
  })

  it('offers what is new below to whoever reads further up, and jumps there', async () => {
    for (let count = 1; count <= 40; count += 1) await rig.clinic().channel.send(ana, plain(`Line ${count}`), 'reply')
    await rig.pane('client').getByText('Line 40').waitFor()
    await rig.pane('client').locator('.log').evaluate((log) => void (log.scrollTop = 0))
    await rig.clinic().channel.send(ana, plain('Line 41'), 'reply')
    await rig.pane('client').getByRole('button', { name: 'New messages below' }).click()
    await rig.pane('client').getByText('Line 41').waitFor()
    const gap = await rig.pane('client').locator('.log').evaluate((log) => log.scrollHeight - log.scrollTop - log.clientHeight)
    expect(Math.abs(gap)).toBeLessThanOrEqual(1)
  })

  it('shows one chat at a time on a narrow screen, and marks the other', async () => {
    await rig.page().setViewportSize(narrow)
    expect(await rig.pane('client').isVisible()).toBe(true)
    expect(await rig.pane('therapist').isVisible()).toBe(false)
    await rig.say('client', 'begin')
    await rig.pane('client').getByRole('button', { name: '9', exact: true }).click()
    const other = rig.page().getByRole('button', { name: 'Therapist 1 new' })
    await other.click()
    await rig.pane('therapist').getByText('Please acknowledge.').waitFor()

    expect(await rig.pane('client').isVisible()).toBe(false)
    const pressed = rig.page().locator('.switch button[aria-pressed="true"]')
    expect(await pressed.allInnerTexts()).toEqual(['Therapist'])
    await other.waitFor({ state: 'detached' })
    expect(await rig.page().locator('html').evaluate((root) => root.scrollWidth)).toBe(narrow.width)
  })

  it('has names for all its controls', async () => {
    await rig.say('client', 'begin')
    await rig.pane('client').getByRole('button', { name: '0', exact: true }).waitFor()
    const nameless = await rig.page().locator('button, select, textarea, a, [role="log"]').evaluateAll((all) =>
      all.filter((one) => {
        const label = one.id === '' ? null : one.ownerDocument.querySelector(`label[for="${one.id}"]`)
        const name = one.getAttribute('aria-label') ?? label?.textContent ?? one.textContent ?? ''
        return name.trim() === ''
      }).length,
    )
    expect(nameless).toBe(0)
    // At least 24 by 24 CSS pixels (WCAG 2.2, 2.5.8).
    const sizes = await rig.page().locator('button:visible, select:visible, textarea:visible').evaluateAll((all) =>
      all.map((one) => Math.min(one.getBoundingClientRect().width, one.getBoundingClientRect().height)),
    )
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(24)
  })

  it.each(['light', 'dark'] as const)('is readable in the %s scheme', async (colorScheme) => {
    await rig.page().emulateMedia({ colorScheme, reducedMotion: 'reduce' })
    await rig.say('client', 'begin')
    await rig.pane('client').getByRole('button', { name: '8', exact: true }).click()
    await rig.clinic().channel.send({ channel: 'browser', address: 'second' }, plain('one'), 'reminder')
    await rig.pane('therapist').getByRole('button', { name: 'Sol Second: 1 new' }).waitFor()
    await rig.say('therapist', 'invite')
    await rig.pane('therapist').locator('a').waitFor()
    await rig.clinic().channel.send(therapist, { text: 'Seen?', buttons: [[{ label: 'Acknowledge', data: 'ack' }]] }, 'reminder')
    await rig.pane('therapist').getByRole('button', { name: 'Acknowledge' }).waitFor()

    const measured = await measureContrast(rig.page())

    // At least 4.5:1 for text (WCAG 2.2, 1.4.3).
    expect(measured.length).toBeGreaterThan(25)
    expect(measured.filter((one) => one.ratio < 4.5)).toEqual([])
  })

  it('moves nothing for whoever asked for reduced motion', async () => {
    const animations = async () => {
      await rig.clinic().channel.send(ana, plain('one'), 'reply')
      await rig.pane('client').getByText('one').last().waitFor()
      const last = rig.pane('client').locator('.item').last()
      return await last.evaluate((item) => item.ownerDocument.defaultView!.getComputedStyle(item).animationName)
    }
    expect(await animations()).toBe('arrive')
    await rig.page().emulateMedia({ reducedMotion: 'reduce' })
    expect(await animations()).toBe('none')
  })
})
