import { expect, it } from 'vitest'
import { describeInBrowser } from '#tests/support/browser.ts'
import { createPageRig } from './page-rig.ts'

describeInBrowser('an invitation on the page', () => {
  const rig = createPageRig()

  it('opens an invitation that a therapist clicks, and no other address becomes a link', async () => {
    await rig.say('therapist', 'invite')
    const links = rig.pane('therapist').locator('.item a')
    await links.first().waitFor()
    expect(await links.evaluateAll((found) => found.map((link) => link.getAttribute('href')))).toEqual(['/?join=token-1'])
    await links.first().click()

    await rig.pane('client').getByText('Welcome. The invitation is token-1.').waitFor()
    const joined = rig.clinic().received.find((inbound) => inbound.kind === 'join')
    expect(joined?.from.address).toMatch(/^client-[0-9a-z]{8}$/)
    expect(await rig.pane('client').getByRole('combobox').inputValue()).toBe(joined?.from.address)
    expect(rig.page().url()).toBe(`${rig.clinic().channel.address()}/`)
  })

  it('finds invitations of its own server only, and leaves every letter of the text', async () => {
    const expected: readonly (readonly [string, readonly string[]])[] = [
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
    ]
    for (const [text, tokens] of expected) {
      const parts = await rig.page().evaluate<{ kind: string; text: string; token?: string }[]>(
        `import('/join-link.js').then((module) => module.splitAtJoinLinks(${JSON.stringify(text)}, ['http://own.example']))`,
      )
      const found = parts.flatMap((part) => (part.kind === 'link' ? [part.token] : []))
      expect({ text: parts.map((part) => part.text).join(''), found }).toEqual({ text, found: tokens })
    }
  })

  it('opens an invitation by its address once, also when the page is reloaded', async () => {
    await rig.open('/?join=token-2')
    await rig.pane('client').getByText('Welcome. The invitation is token-2.').waitFor()
    await rig.page().reload()
    await rig.pane('client').getByText('Welcome. The invitation is token-2.').waitFor()
    expect(rig.clinic().received.map((inbound) => inbound.kind)).toEqual(['join'])
  })

  it('says so when an invitation is not complete', async () => {
    await rig.open('/?join=a%20b')
    expect(await rig.page().getByRole('alert').textContent()).toBe('This invitation link is not complete. Ask for it again.')
    expect(rig.clinic().received).toEqual([])
  })
})
