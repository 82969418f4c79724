import { it } from 'vitest'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { TelegramClinic } from '#tests/support/telegram-clinic.ts'
it('x', async () => {
  const clinic = new TelegramClinic(await makeTemporaryFolder(), Date.parse('2026-06-01T11:00:00Z'))
  await clinic.start()
  try {
  await clinic.say(900, clinic.claim ?? '')
  await clinic.say(900, 'Maren Holt')
  await clinic.say(900, 'Europe/Dublin')
  await clinic.say(900, 'mon-fri')
  await clinic.say(900, '08:00-18:00')
  const { token } = await clinic.enrol()
  await clinic.say(500, `/start ${token}`)
  await clinic.press(500, 'Go on')
  await clinic.say(500, 'yes')
  await clinic.press(500, 'Yes')
  await clinic.press(500, 'Yes')
  await clinic.advanceTo(Date.parse('2026-06-01T17:00:00Z'))
  await clinic.press(500, 'Ready')
  await clinic.press(500, 'None of these')
  await clinic.say(500, '1')
  await clinic.say(500, 'done')
  for (let i=0;i<3;i++) {
  await clinic.press(500, 'Done')
  await clinic.say(500, 'one')
  await clinic.press(500, 'No')
  await clinic.say(500, '3')
  }
  await clinic.advanceTo(Date.parse('2026-06-02T09:00:00Z'))
  await clinic.say(500, '1')
  await clinic.advanceTo(Date.parse('2026-06-03T17:00:00Z'))
  } finally {
  for (const c of clinic.api.calls) { const p = c.payload as any; console.log(c.method, p.chat_id ?? '', p.message_id ?? '', p.text ?? '', JSON.stringify((p.reply_markup?.inline_keyboard??[]).flat().map((b: any)=>b.text+'='+b.callback_data))) }
  console.log(clinic.log)
  await clinic.close()
  }
})
