import { onTestFinished } from 'vitest'
import { ManualClock } from '../manual-clock.ts'
import { openBotApiDouble, type BotApiDouble, type DoubleOptions } from './bot-api-double.ts'

export const doubleToken = '4242:secret-of-the-bot'

export interface CallResult {
  readonly status: number
  readonly body: { readonly ok?: boolean; readonly result?: unknown; readonly description?: string; readonly parameters?: unknown }
}

export interface DoubleRig {
  readonly double: BotApiDouble
  readonly clock: ManualClock
  call(method: string, payload?: unknown, token?: string): Promise<CallResult>
  /** The Bot API's error code and description, or null where the call was taken. */
  refusal(method: string, payload: unknown): Promise<string | null>
}

/** The double with a clock set by hand, called as any client would. */
export async function openDoubleRig(options: Partial<DoubleOptions> = {}): Promise<DoubleRig> {
  const clock = new ManualClock(Date.parse('2026-06-01T12:00:00Z'))
  const double = await openBotApiDouble({ token: doubleToken, clock, wait: clock.wait, ...options })
  onTestFinished(() => double.close())
  async function call(method: string, payload: unknown = {}, token = doubleToken): Promise<CallResult> {
    const headers = { 'Content-Type': 'application/json' }
    const response = await fetch(`${double.root}/bot${token}/${method}`, { method: 'POST', headers, body: JSON.stringify(payload) })
    const text = await response.text()
    const isJson = response.headers.get('content-type')?.includes('json') === true
    return { status: response.status, body: isJson ? (JSON.parse(text) as CallResult['body']) : {} }
  }
  return {
    double,
    clock,
    call,
    async refusal(method, payload) {
      const { status, body } = await call(method, payload)
      return body.ok === true ? null : `${status} ${body.description}`
    },
  }
}
