// The real process over a real line, with a server that keeps the Bot API's rules.
import { describe, expect, it } from 'vitest'
import { runNuchal } from '../commands/run-nuchal.ts'
import { goToFirstSetOf, listening, openProcessClinic, openStaffedProcess } from './process-clinic.ts'
import { client, mondayNoon, mondaySession, therapist } from './telegram-people.ts'

const hourMs = 3_600_000
const longMs = 120_000

describe('a process that polls', () => {
  it('leads a client through a session, keeps every answer, and asks the next morning', async () => {
    const clinic = await openStaffedProcess()
    expect(clinic.double.polls.map(({ allowed_updates: kinds }) => kinds)).toEqual(
      Array(clinic.double.polls.length).fill(['message', 'edited_message', 'callback_query', 'my_chat_member']),
    )
    await goToFirstSetOf(clinic, mondaySession)
    for (const label of ['Done', '1', 'No', '3']) await clinic.press(client, label)
    for (const words of ['done', 'hardly any, 1', 'no, it stayed clean', 'three more', '0']) await clinic.say(client, words)
    for (const label of ['No', '4', '5']) await clinic.press(client, label)
    const ended = clinic.lastTo(client)
    const before = clinic.double.messages(client).length
    await clinic.moveTo(mondayNoon + 20 * hourMs)
    await clinic.until(() => clinic.double.messages(client).length > before)
    const morning = clinic.lastTo(client)
    await clinic.press(client, '1')
    clinic.process.kill('SIGTERM')

    expect([ended, morning.split('.')[0]]).toEqual(['Thank you. That is noted.', 'Good morning'])
    expect(await clinic.process.ended).toEqual({ status: 0, signal: null })
    // A poll under way is over when hours pass at once, in which presses might have been lost; nothing else is worth a line.
    const expected = ['"code":"network","msg":"telegram-call-failed"', '"msg":"presses-may-be-lost"']
    expect(clinic.process.err.trimEnd().split('\n').filter((line) => !expected.some((words) => line.includes(words)))).toEqual([])
    const { chart, sets } = await clinic.readChart()
    expect(sets).toEqual([
      { finished: true, pain: 1, control: 'steady', reserve: 3 },
      { finished: true, pain: 1, control: 'steady', reserve: 3 },
      { finished: true, pain: 0, control: 'steady', reserve: 4 },
    ])
    expect(chart.pending?.morning).toBe(1)
    expect(clinic.double.pending()).toEqual([])
  }, longMs)

  it('that is told to end with an answer just arrived keeps it, ends with 0 within ten seconds, and knows it again', async () => {
    const clinic = await openStaffedProcess()
    await goToFirstSetOf(clinic, mondaySession)
    const before = clinic.double.messages(client).length
    const told = { at: 0 }
    clinic.observe(({ method, phase, updates }) => {
      if (method !== 'getUpdates' || phase !== 'answered' || updates === 0 || told.at > 0) return
      told.at = performance.now()
      clinic.process.kill('SIGTERM')
    })
    clinic.double.press(client, 'Done')
    const press = clinic.double.pending().at(-1)!
    const { status } = await clinic.process.ended
    const tookMs = performance.now() - told.at
    const pendingAfter = clinic.double.pending().length
    await clinic.start()
    clinic.double.push(press)
    await clinic.until(() => clinic.double.pending().length === 0)
    await clinic.press(client, '2')

    expect(status).toBe(0)
    expect(tookMs).toBeLessThan(10_000)
    // Handled and confirmed, or left to the server whole.
    expect([0, 1]).toContain(pendingAfter)
    const asked = clinic.double.messages(client).slice(before).map(({ sent }) => sent.text.split(/[.?]/)[0])
    expect(asked).toEqual(['Put everything down first', 'Did your chin, shoulders or body move to help'])
  }, longMs)
})

describe('a process that may not receive', () => {
  it('ends with one clear line and not with 0: a refused token, a webhook that is set, another process that polls', async () => {
    const clinic = await openProcessClinic()
    await listening(clinic.process)
    await clinic.until(() => clinic.double.isPolled)
    const refused = runNuchal(['start'], { ...clinic.environment, DATA_DIR: `${clinic.environment['DATA_DIR']}/other`, TELEGRAM_BOT_TOKEN: '4242:another' })
    await fetch(`${clinic.double.root}/bot4242:secret-of-the-bot/getUpdates?timeout=0`)
    const ended = await clinic.process.ended
    clinic.double.setWebhook('http://127.0.0.1:9')
    const hooked = await runNuchal(['start'], { ...clinic.environment, DATA_DIR: `${clinic.environment['DATA_DIR']}/new` })
    const linesOf = (text: string): readonly string[] => text.trimEnd().split('\n')

    expect([ended.status, linesOf(clinic.process.err).at(-1)]).toEqual([
      1,
      'Another process receives for this Telegram bot, or a webhook was set. Stop the other one, or make a new token.',
    ])
    expect([(await refused).status, (await refused).err]).toEqual([
      2,
      'Telegram refused the token. Copy it again from BotFather into TELEGRAM_BOT_TOKEN.\n',
    ])
    expect([hooked.status, hooked.err]).toEqual([
      2,
      'A webhook is set for this Telegram bot, so polling gets nothing. Remove it with the API method deleteWebhook.\n',
    ])
    expect(clinic.double.calls.filter(({ method }) => method === 'deleteWebhook')).toEqual([])
  }, longMs)
})

describe('a client who blocks the bot', () => {
  it('is tried once, which the therapist reads; whoever comes back gets the question again', async () => {
    const clinic = await openStaffedProcess()
    clinic.double.blockSilently(client)
    const toClient = (): number => clinic.double.calls.filter(({ method, payload }) => method === 'sendMessage' && payload['chat_id'] === client).length
    const before = toClient()
    const told = (): readonly string[] => clinic.double.messages(therapist).map(({ text }) => text).filter((text) => text.startsWith('Orla Tiernan can'))
    await clinic.moveTo(mondaySession)
    await clinic.until(() => told().length === 1)
    // The next reminder would be on Wednesday.
    await clinic.moveTo(mondaySession + 48 * hourMs)
    await clinic.nothingDue()
    const whileBlocked = toClient() - before
    clinic.double.unblock(client)
    await clinic.until(() => told().length === 2)
    await clinic.say(client, 'ready')
    // The notice of the silence, into which the moved clock has run, may come in between.
    await clinic.until(() => clinic.lastTo(client).startsWith('First the safety check.'))

    expect(whileBlocked).toBe(1)
    expect(told()).toEqual([
      'Orla Tiernan cannot be reached on this network. Reminders have stopped. Please use another way.',
      'Orla Tiernan can be reached again.',
    ])
    expect(clinic.lastTo(client)).toMatch(/^First the safety check\./)
  }, longMs)
})

describe('a line that stays silent', () => {
  it('is left after 60 seconds by a message, and after 45 by a poll, and both are tried again', async () => {
    const clinic = await openStaffedProcess()
    const sends = (): number => clinic.double.calls.filter(({ method }) => method === 'sendMessage').length
    await goToFirstSetOf(clinic, mondaySession)
    const sent = sends()
    clinic.double.plan('sendMessage', { kind: 'silence' })
    clinic.double.press(client, 'Done')
    await clinic.until(() => sends() === sent + 1)
    await clinic.moveBy(59_000)
    const tooEarly = sends()
    await clinic.moveBy(1_000)
    // The pause before the next try.
    await clinic.moveBy(2_000)
    await clinic.until(() => clinic.lastTo(client).startsWith('Put everything down first.'))

    clinic.double.plan('getUpdates', { kind: 'silence' })
    const polls = clinic.double.polls.length
    await clinic.press(client, '1')
    await clinic.until(() => clinic.double.polls.length > polls)
    clinic.double.press(client, 'No')
    const unheard = clinic.double.pending().length
    await clinic.moveBy(46_000)
    await clinic.until(() => clinic.lastTo(client).startsWith('How many more could you have done'))

    expect([tooEarly, sends()]).toEqual([sent + 1, sent + 4])
    expect(unheard).toBeGreaterThan(0)
  }, longMs)
})
