import { describe, expect, it } from 'vitest'
import { readConfig } from '#src/config.ts'

const bot = { TELEGRAM_BOT_TOKEN: '4242:secret-of-the-bot' }
const telegramOf = (environment: Record<string, string>) => readConfig({ ...bot, ...environment }).telegram

describe('the webhook of the configuration', () => {
  it('is none without its variables, also where they are empty', () => {
    expect(telegramOf({ TELEGRAM_WEBHOOK_URL: '', TELEGRAM_WEBHOOK_SECRET: '' })).toEqual({ token: bot.TELEGRAM_BOT_TOKEN, apiRoot: null, webhook: null })
  })

  it.each(['s'.repeat(16), 'A-Z_a-z_0-9_and_-', 's'.repeat(256)])('takes an https address and the secret %s', (secret) => {
    const url = 'https://clinic.example:8443/telegram?here=1'
    expect(telegramOf({ TELEGRAM_WEBHOOK_URL: url, TELEGRAM_WEBHOOK_SECRET: secret })?.webhook).toEqual({ url, secret })
  })

  it('takes a plain http address beside a server of one’s own', () => {
    const url = 'http://127.0.0.1:4870/telegram'
    expect(telegramOf({ TELEGRAM_WEBHOOK_URL: url, TELEGRAM_WEBHOOK_SECRET: 'secret-of-the-hook', TELEGRAM_API_ROOT: 'http://127.0.0.1:8081' })?.webhook).toEqual({ url, secret: 'secret-of-the-hook' })
  })
})
