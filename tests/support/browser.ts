import { existsSync } from 'node:fs'
import { chromium, type Browser } from 'playwright-core'
import { describe, expect, it } from 'vitest'

/** Where Debian's chromium lies unless the environment names another. */
const usualPath = '/usr/bin/chromium'

export function findChromium(): string | null {
  const path = process.env['CHROMIUM_PATH'] ?? usualPath
  return existsSync(path) ? path : null
}

/** A browser that opens nothing by itself. */
export async function openChromium(): Promise<Browser> {
  const executablePath = findChromium()
  if (executablePath === null) throw new Error('no chromium: set CHROMIUM_PATH to one')
  return await chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  })
}

/** Tests that need a real browser: where there is none they are reported as not run, and under CI=true as failed. */
export function describeInBrowser(title: string, body: () => void): void {
  if (findChromium() !== null) {
    describe(title, { timeout: 60_000 }, body)
    return
  }
  describe(title, () => {
    it('finds a chromium to run in (set CHROMIUM_PATH)', (context) => {
      if (process.env['CI'] !== 'true') context.skip('no chromium here: set CHROMIUM_PATH to run these tests')
      expect(findChromium()).not.toBeNull()
    })
  })
}
