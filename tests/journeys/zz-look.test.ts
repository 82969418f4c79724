import { it } from 'vitest'
import { JoinedClinic } from '#tests/support/joined-clinic.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'
const known = { ...extensionPlan, knownSigns: [{ sign: 'arm-numbness', words: 'tingling left hand', side: 'left' as const, area: 'hand', worst: 3 }] }
it('look', () => {
  const tr = (c: JoinedClinic, t: string) => { c.client.skip(); c.client.write(t); console.log(`>> ${t}\n${c.client.read()}\n   [${c.asks}] stack ${c.chart().conversations.length} lock ${c.chart().lock?.level}`) }
  let c = new JoinedClinic({ plan: known })
  c.rig.moveTo('2026-01-05T18:00:00Z')
  c.begin()
  tr(c, 'my hand tingles'); tr(c, 'the tingling is as usual'); tr(c, 'my left hand tingles as always'); tr(c, 'as usual')
  tr(c, 'my hand is numb'); tr(c, 'it is worse than usual')
  c = new JoinedClinic()
  c.rig.moveTo('2026-01-05T18:00:00Z')
  c.begin().doSet()
  tr(c, 'sorry, the pain was 6')
  c = new JoinedClinic()
  c.rig.moveTo('2026-01-05T18:00:00Z')
  c.begin().doSet()
  tr(c, 'sorry, I meant 1'); tr(c, 'sorry I meant pain 7'); tr(c, 'actually my chin moved')
  c = new JoinedClinic()
  c.rig.moveTo('2026-01-05T18:00:00Z')
  c.begin().doSet()
  tr(c, 'I meant it hurt 6'); 
  c = new JoinedClinic()
  c.rig.moveTo('2026-01-05T18:00:00Z')
  c.begin().doSet()
  tr(c, 'wait, actually my body moved to help')
  tr(c, 'is it normal that my arm might be numb?'); tr(c, 'maybe'); tr(c, 'no');  tr(c, 'i have a fever'); tr(c, 'help'); tr(c, 'why'); tr(c, 'stop'); tr(c, 'stop'); tr(c, 'stop'); tr(c, 'not today')
})
