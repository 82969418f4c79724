import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { describeInBrowser, openChromium } from '#tests/support/browser.ts'
import { DemoPage, narrow, wide } from './demo-page.ts'

const sign = 'my left hand has gone numb and tingly'

/** From the open page to the first set's instructions. */
async function goToFirstSet(demo: DemoPage): Promise<void> {
  await demo.press('client', 'Go on')
  await demo.sees('client', 'Do you agree?')
  for (const question of ['Do you agree?', 'Is that right?', 'Is the time right for you?']) {
    await demo.sees('client', question)
    await demo.press('client', 'Yes')
  }
  await demo.sees('client', 'Thank you, all set.')
  await demo.moveClock('Next session')
  await demo.press('client', 'Ready')
  await demo.press('client', 'None of these')
  await demo.press('client', '1')
  await demo.sees('client', 'Warm up first.')
  await demo.press('client', 'Done')
  await demo.sees('client', 'Set 1 of 3')
}

describeInBrowser('the demo clinic on its page', () => {
  let browser: Browser
  beforeAll(async () => void (browser = await openChromium()))
  afterAll(() => browser.close())

  it('leads through consent and a whole session, with a slip put right, and tells the next dose after the morning', async () => {
    const demo = await DemoPage.open(browser)
    await demo.keepPicture('consent-1280')
    await goToFirstSet(demo)
    await demo.keepPicture('set-1280')
    await demo.press('client', 'Done')
    await demo.say('client', 'pian abuot 1')
    await demo.sees('client', 'Did your chin, shoulders or body move to help?')
    await demo.say('client', 'sorry, I meant 2')
    await demo.sees('client', 'Thank you for putting that right.')
    await demo.page.reload()
    await demo.sees('client', 'Did your chin, shoulders or body move to help?')
    await demo.press('client', 'No')
    await demo.press('client', '3')
    for (const number of [2, 3]) {
      await demo.sees('client', `Set ${number} of 3`)
      await demo.press('client', 'Done')
      await demo.sees('client', 'Put everything down first.')
      for (const label of ['1', 'No', '4']) await demo.press('client', label)
    }
    await demo.sees('client', 'That was your session. Well done.')
    await demo.moveClock('Next morning')
    await demo.sees('client', 'Good morning.')
    await demo.press('client', '1')
    await demo.sees('client', 'Thank you.')
    await demo.keepPicture('morning-1280')

    const texts = await demo.texts('client')
    expect(texts.at(-1)).toMatch(/^Thank you\.\n\nNext time: one small step up\.\ntwo-hand press: 3 sets of 5 holds of 6 seconds, push 3 out of 10\./)
    expect(demo.complaints).toEqual([])
    expect(demo.log.lines.filter(({ level }) => level !== 'info')).toEqual([])
  })

  it('goes on with the same question after the clinic was stopped and started in the middle of a set', async () => {
    const demo = await DemoPage.open(browser)
    await goToFirstSet(demo)
    await demo.press('client', 'Done')
    await demo.sees('client', 'Put everything down first.')
    const before = await demo.texts('client')
    await demo.stop()
    await demo.page.getByText('Not connected.').waitFor()
    await demo.start()
    await demo.page.getByText('Connected', { exact: true }).waitFor()
    const after = await demo.texts('client')
    await demo.press('client', '2')
    await demo.sees('client', 'Did your chin, shoulders or body move to help?')

    expect(after).toEqual(before)
    expect((await demo.texts('client')).length).toBe(before.length + 2)
  })

  it('brings a sign in words to the therapist, who acknowledges, clears and is answered each time', async () => {
    const demo = await DemoPage.open(browser)
    await goToFirstSet(demo)
    await demo.say('client', sign)
    await demo.sees('client', 'Stop training now and put everything down.')
    await demo.sees('therapist', `Client’s words: “${sign}”`)
    await demo.keepPicture('alert-1280')
    await demo.page.setViewportSize(narrow)
    await demo.keepPicture('alert-client-375')
    await demo.page.getByRole('button', { name: /^Therapist/ }).click()
    await demo.sees('therapist', 'URGENT, same day')
    await demo.keepPicture('alert-therapist-375')
    await demo.press('therapist', 'Acknowledge')
    await demo.sees('therapist', 'acknowledged, no more re-sending')
    await demo.keepPicture('acknowledged-375')
    await demo.page.setViewportSize(wide)
    await demo.press('therapist', 'Clear the lock …')
    await demo.press('therapist', 'Seen in person')
    await demo.say('therapist', 'Examined today, no sign left.')
    await demo.press('therapist', 'The usual restart')
    await demo.sees('client', 'Your therapist has cleared you to train again.')

    expect((await demo.texts('therapist')).at(-1)).toMatch(/^Orla Tiernan: cleared\./)
    expect(demo.complaints).toEqual([])
  })

  it('asks the symptom question after red pain and takes "none of these" for an answer', async () => {
    const demo = await DemoPage.open(browser)
    await goToFirstSet(demo)
    await demo.say('client', '6')
    await demo.sees('client', 'One question to be safe')
    await demo.page.setViewportSize(narrow)
    await demo.keepPicture('symptom-375')
    await demo.press('client', 'None of these')
    await demo.sees('client', 'It was right to stop.')
    expect((await demo.texts('client')).at(-1)).toContain('Next time:')
  })

  it('opens an invitation link once', async () => {
    const demo = await DemoPage.open(browser)
    await demo.say('therapist', 'invite')
    const link = demo.pane('therapist').locator('.item a')
    await link.waitFor()
    const href = (await link.getAttribute('href')) ?? ''
    await demo.visit(browser, href)
    await demo.sees('client', 'You are now a therapist of this clinic.')
    await demo.visit(browser, href)
    await demo.sees('client', 'This invitation cannot be used.')
    expect(await demo.texts('client')).toHaveLength(2)
  })
})
