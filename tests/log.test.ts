// The log's second line of defence: whatever a mistake hands over, nothing that somebody said, is or may do comes out.
import { describe, expect, it } from 'vitest'
import { removed } from '#src/log-fields.ts'
import { createLog } from '#src/log.ts'
import type { LogFields } from '#src/ports/log.ts'

function written(event: string, fields: object): { readonly line: string; readonly fields: Record<string, unknown> } {
  const lines: string[] = []
  createLog('info', { write: (line) => void lines.push(line) }).warn(event, fields as LogFields)
  const { level, time, ...rest } = JSON.parse(lines[0] ?? '{}') as Record<string, unknown>
  expect([level, typeof time]).toEqual([40, 'string'])
  return { line: lines.join(''), fields: rest }
}

describe('what the log writes', () => {
  it('is the event, its counts, codes, classes and ids, whole', () => {
    const fields = { document: 'chart-00000000c11e', code: 'ECONNRESET', error: 'RangeError', channel: 'telegram', count: 7, isLate: true, method: 'sendMessage' }
    expect(written('send-refused', fields).fields).toEqual({ ...fields, msg: 'send-refused' })
  })

  it.each(['text', 'messageText', 'token', 'bot_token', 'address', 'answer', 'message', 'name', 'clientName', 'chat_id', 'pain', 'reserve', 'control', 'words', 'title', 'secret', 'url', 'phone', 'payload', 'stack'])(
    'is never what a field named %s holds, be it a text, a number or more',
    (name) => {
      for (const value of ['Orla', 4, true, { pain: 4 }, ['Orla'], null]) expect(written('some-event', { [name]: value }).fields).toEqual({ [name]: removed, msg: 'some-event' })
    },
  )

  it.each<readonly [string, unknown]>([
    ['a sentence', 'my left arm is numb'],
    ['two lines', 'numb\nnumb'],
    ['a token', '4242:secret-of-the-bot'],
    ['a token inside an address', 'https://api.example/bot4242:secret-of-the-bot/getMe'],
    ['a long text without blanks', 'numb'.repeat(26)],
    ['an error', new Error('my left arm is numb')],
    ['an object', { code: 'numb' }],
    ['a text in letters that no code has', 'entumecido—sí'],
  ])('is never %s, whatever the field is called', (_, value) => {
    expect(written('some-event', { detail: value }).fields).toEqual({ detail: removed, msg: 'some-event' })
  })

  it.each([['err'], ['error'], ['cause']])('is never an error’s message in a field named %s', (name) => {
    expect(written('some-event', { [name]: new Error('my left arm is numb') }).line).not.toContain('numb')
  })

  it('is never an error given in place of fields, a text in place of an event, or a text in place of a name', () => {
    const error = Object.assign(new Error('my left arm is numb'), { payload: 'numb' })
    const { line } = written('some-event', error)
    const other = written('My left arm is numb', { 'numb numb': 1 })
    expect([line, other.line].join('\n')).not.toContain('numb')
  })
})
