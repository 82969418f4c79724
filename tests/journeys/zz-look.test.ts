import { it } from 'vitest'
import { JoinedClinic } from '#tests/support/joined-clinic.ts'
it('look', () => {
  const c = new JoinedClinic()
  c.rig.moveTo('2026-01-05T18:00:00Z')
  c.begin()
  c.doSet().doSet({pain: 4}).doSet()
  c.rig.moveTo('2026-01-06T08:00:00Z')
  c.client.write('1')
  console.log(c.client.messages.map((m) => new Date(m.at).toISOString() + ' ' + m.urgency + '\n' + m.text + '\n' + m.buttons.map((b) => `[${b.label}]`).join(' ')).join('\n======\n'))
  console.log('THERAPIST\n' + c.maren.messages.map((m) => m.text).join('\n======\n'))
})
