// The demo clinic as `start` opens it, and a real browser on its page.
import { join } from 'node:path'
import { onTestFinished } from 'vitest'
import type { Browser, Locator, Page } from 'playwright-core'
import { startDemo } from '#src/commands/start/start-demo.ts'
import type { Started } from '#src/commands/start/started.ts'
import { readConfig } from '#src/config.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'

export const wide = { width: 1280, height: 800 }
export const narrow = { width: 375, height: 740 }

export class DemoPage {
  readonly log = new RecordingLog()
  readonly complaints: string[] = []
  page!: Page
  address = ''
  private readonly folder: string
  private started: Started | null = null

  private constructor(folder: string) {
    this.folder = folder
  }

  static async open(browser: Browser): Promise<DemoPage> {
    const demo = new DemoPage(await makeTemporaryFolder())
    onTestFinished(() => demo.close())
    await demo.start()
    await demo.visit(browser, '/')
    return demo
  }

  /** On the port of the start before, so that an open page finds it again. */
  async start(): Promise<void> {
    const port = this.address === '' ? '0' : new URL(this.address).port
    const config = readConfig({ DATA_DIR: this.folder, PORT: port })
    this.started = await startDemo(config, this.log, (error) => {
      throw error
    })
    this.address = /http:\S+/.exec(this.started.lines[0] ?? '')?.[0] ?? ''
  }

  async stop(): Promise<void> {
    await this.started?.stop()
    this.started = null
  }

  pane(name: 'client' | 'therapist'): Locator {
    return this.page.locator(`[data-pane="${name}"]`)
  }

  async say(name: 'client' | 'therapist', text: string): Promise<void> {
    await this.pane(name).getByRole('textbox').fill(text)
    await this.pane(name).getByRole('button', { name: 'Send', exact: true }).click()
  }

  /** Buttons of earlier questions are gone, so that one label names one button. */
  press(name: 'client' | 'therapist', label: string): Promise<void> {
    return this.pane(name).locator('.log').getByRole('button', { name: label, exact: true }).click()
  }

  async sees(name: 'client' | 'therapist', text: string): Promise<void> {
    await this.pane(name).locator('.log').getByText(text).last().waitFor()
  }

  async moveClock(label: string): Promise<void> {
    await this.page.locator('#clock').getByRole('button', { name: label, exact: true }).click()
  }

  texts(name: 'client' | 'therapist'): Promise<string[]> {
    return this.pane(name).locator('.item .text').allTextContents()
  }

  /** A picture of the page, for whoever wants to look at it. */
  async keepPicture(name: string): Promise<void> {
    const folder = process.env['PICTURE_FOLDER']
    if (folder !== undefined) await this.page.screenshot({ path: join(folder, `${name}.png`) })
  }

  /** A browser that was never here before. */
  async visit(browser: Browser, path: string): Promise<void> {
    await this.page?.context().close()
    this.page = await (await browser.newContext({ viewport: wide, reducedMotion: 'reduce' })).newPage()
    this.page.on('pageerror', (error) => this.complaints.push(error.message))
    await this.page.goto(`${this.address}${path}`)
    await this.page.getByText('Connected', { exact: true }).waitFor()
  }

  private async close(): Promise<void> {
    await this.page?.context().close()
    await this.stop()
  }
}
