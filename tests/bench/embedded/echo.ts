// What every answer is measured against: a grammY bot that echoes each update and writes one file.
import { Bot } from 'grammy'
import type { Update } from 'grammy/types'
import { plain } from '#src/stores/cipher.ts'
import { createFileAdapter } from '#src/stores/lowdb/file-adapter.ts'
import { nodeFileSystem } from '#src/stores/lowdb/file-system.ts'
import { botUser } from '#tests/support/telegram-updates.ts'
import { benchToken, instantApi } from './answering-clinic.ts'

export interface Echo {
  /** Resolves when the echo is out and the value durable. */
  take(update: Update, value: object): Promise<void>
}

/** Keeps its file as a document is kept: sealed, synced with its folder, the last generation beside it. */
export function createEcho(path: string): Echo {
  const decode = (value: unknown): { kind: 'good'; value: object } => ({ kind: 'good', value: value as object })
  const adapter = createFileAdapter<object>(nodeFileSystem, { path, newestFormat: 1, keepsPrevious: true, place: 'echo', cipher: plain, decode })
  const bot = new Bot(benchToken, { botInfo: botUser as Bot['botInfo'] })
  let next: object = {}
  bot.api.config.use(instantApi())
  bot.use(async (context) => {
    await context.reply(context.message?.text ?? context.callbackQuery?.data ?? '-')
    await adapter.write(next)
  })
  return {
    async take(update, value) {
      next = value
      await bot.handleUpdate(update)
    },
  }
}
