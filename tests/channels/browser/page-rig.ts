import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach } from 'vitest'
import { openChromium } from '#tests/support/browser.ts'
import { createDisk, type BrowserClinic } from './browser-clinic.ts'
import { startScripted } from './scripted-clinic.ts'

const wide = { width: 1280, height: 800 }
/** A browser on a busy machine takes its time; nothing waits for this long when all is well. */
const patienceMs = 60_000

export interface PageRig {
  clinic(): BrowserClinic
  page(): Page
  pane(name: 'client' | 'therapist'): Locator
  textsOf(name: 'client' | 'therapist'): Promise<string[]>
  say(name: 'client' | 'therapist', text: string): Promise<void>
  /** Opens another page, which is then the one driven. */
  open(path: string): Promise<void>
  /** Errors that the page or its browser reported. */
  complaints(): readonly string[]
  /** Stops the server and waits until the page has noticed. */
  stopClinic(): Promise<void>
  /** Starts the server anew on the same port, with what was kept. */
  startClinic(): Promise<void>
}

/** For each test of the file: a fresh demo clinic on a disk of its own, and a page open on it. */
export function createPageRig(): PageRig {
  let browser: Browser
  let page: Page
  let clinic: BrowserClinic
  let disk: ReturnType<typeof createDisk>
  let port = 0
  let complaints: string[] = []

  const pane = (name: string) => page.locator(`[data-pane="${name}"]`)

  async function open(path: string): Promise<void> {
    page = await page.context().newPage()
    await visit(path)
  }

  async function visit(path: string): Promise<void> {
    page.on('pageerror', (error) => complaints.push(error.message))
    page.on('console', (line) => line.type() === 'error' && complaints.push(line.text()))
    page.setDefaultTimeout(patienceMs / 2)
    await page.goto(`${clinic.channel.address()}${path}`)
    await page.getByText('Connected', { exact: true }).waitFor()
  }

  beforeAll(async () => void (browser = await openChromium()), patienceMs)
  beforeEach(async () => {
    complaints = []
    disk = createDisk()
    clinic = await startScripted(disk)
    port = Number(new URL(clinic.channel.address()).port)
    page = await (await browser.newContext({ viewport: wide })).newPage()
    await visit('/')
  }, patienceMs)
  afterEach(async () => {
    await page.context().close()
    await clinic.channel.stop()
  }, patienceMs)
  afterAll(() => browser.close(), patienceMs)

  return {
    clinic: () => clinic,
    page: () => page,
    pane,
    textsOf: (name) => pane(name).locator('.item .text').allTextContents(),
    async say(name, text) {
      await pane(name).getByRole('textbox').fill(text)
      await pane(name).getByRole('button', { name: 'Send', exact: true }).click()
    },
    open,
    complaints: () => complaints,
    async stopClinic() {
      await clinic.channel.stop()
      await page.getByText('Not connected.').waitFor()
    },
    async startClinic() {
      clinic = await startScripted({ ...disk, port })
    },
  }
}
