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
  /** For a test that puts its hand on the page's clock or lines: a page of its own, not yet open on the clinic. */
  separatePage(): Promise<Page>
  /** Opens the page driven on the clinic, and waits until they are connected. */
  visit(path: string): Promise<void>
  /** Errors that the page or its browser reported. */
  complaints(): readonly string[]
  /** Stops the server and waits until the page has noticed. */
  stopClinic(): Promise<void>
  /** Starts the server anew on the same port, with what was kept. */
  startClinic(): Promise<void>
}

/**
 * For each test of the file: a fresh demo clinic on a disk and a port of its own, and a page open on it. The page is one for the whole
 * file, since a new one takes three times as long as all the rest; what it stores belongs to an origin, and so to one test.
 */
export function createPageRig(): PageRig {
  let browser: Browser
  let shared: Page
  let page: Page
  let clinic: BrowserClinic
  let disk: ReturnType<typeof createDisk>
  let port = 0
  let complaints: string[] = []

  const pane = (name: string) => page.locator(`[data-pane="${name}"]`)

  async function open(path: string): Promise<void> {
    listen(await page.context().newPage())
    await visit(path)
  }

  function listen(opened: Page): void {
    page = opened
    page.on('pageerror', (error) => complaints.push(error.message))
    page.on('console', (line) => line.type() === 'error' && complaints.push(line.text()))
    page.setDefaultTimeout(patienceMs / 2)
  }

  async function visit(path: string): Promise<void> {
    await page.goto(`${clinic.channel.address()}${path}`)
    await page.getByText('Connected', { exact: true }).waitFor()
  }

  const newContext = () => browser.newContext({ viewport: wide })

  beforeAll(async () => {
    browser = await openChromium()
    shared = await (await newContext()).newPage()
  }, patienceMs)
  beforeEach(async () => {
    complaints = []
    disk = createDisk()
    clinic = await startScripted(disk)
    port = Number(new URL(clinic.channel.address()).port)
    await shared.setViewportSize(wide)
    await shared.emulateMedia({ colorScheme: null, reducedMotion: null })
    listen(shared)
    await visit('/')
  }, patienceMs)
  afterEach(async () => {
    for (const event of ['pageerror', 'console', 'request'] as const) shared.removeAllListeners(event)
    for (const context of browser.contexts()) await (context === shared.context() ? closeOthers(shared) : context.close())
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
    async separatePage() {
      listen(await (await newContext()).newPage())
      return page
    },
    visit,
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

async function closeOthers(page: Page): Promise<void> {
  for (const other of page.context().pages()) if (other !== page) await other.close()
}
