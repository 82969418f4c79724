// A reminder that was not sent, or of which nobody knows whether it was: no question is open that nobody has seen.
import { describe, expect, it } from 'vitest'
import { flows } from '#flows/registry.ts'
import type { Chart } from '#src/chart/chart.ts'
import { createStep } from '#src/chart/step.ts'
import { brandAs, type EventId } from '#src/domain/identifier.ts'
import type { Effect } from '#src/domain/message.ts'
import { chartId, JoinedClinic } from '#tests/support/joined-clinic.ts'
import { content } from '#tests/support/sample-chain.ts'

const again = 'I was away for a while. If you pressed a button, it may not have reached me. Here is the question again.'

/** The clinic at 18:00, with the reminder's own effect. */
function reminded(): { readonly clinic: JoinedClinic; readonly effect: Extract<Effect, { kind: 'send' }> } {
  const clinic = new JoinedClinic()
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  const { id, to, text } = { id: clinic.chart().prompt!.effect, to: clinic.chart().contact!, text: clinic.client.messages.at(-1)!.text }
  clinic.client.skip()
  return { clinic, effect: { kind: 'send', id, to, message: { text, buttons: [] }, urgency: 'reminder' } }
}

function tell(clinic: JoinedClinic, effect: Extract<Effect, { kind: 'send' }>, reason: 'late' | 'unsure'): string {
  clinic.client.skip()
  clinic.rig.submit(chartId, { kind: 'unreminded', effect, reason })
  return clinic.client.read()
}

describe('a reminder', () => {
  it('that may never have arrived is asked again as a question, and what came before loses its buttons', () => {
    const { clinic, effect } = reminded()
    const said = tell(clinic, effect, 'unsure')

    expect(said.startsWith(`${again}\n\n${effect.message.text}`)).toBe(true)
    expect(clinic.client.messages.filter(({ buttons }) => buttons.length > 0)).toHaveLength(1)
    expect(clinic.client.messages.at(-1)?.urgency).toBe('reply')
    clinic.client.press('Ready')
    expect(clinic.asks).toBe('session.screen')
  })

  it('that was answered after all, or asked again since, is left alone', () => {
    const { clinic, effect } = reminded()
    clinic.client.press('Ready')
    const answered = tell(clinic, effect, 'unsure')
    const other = reminded()
    tell(other.clinic, other.effect, 'unsure')

    expect(answered).toBe('')
    expect(tell(other.clinic, other.effect, 'unsure')).toBe('')
  })

  it('that came too late to be of use is noted as one that was skipped, and says nothing', () => {
    const { clinic, effect } = reminded()
    expect(tell(clinic, effect, 'late')).toBe('')
    expect(clinic.entries('reminder-skipped').map(({ data }) => data)).toEqual([{ dueAt: Date.parse('2026-01-05T18:00:00Z'), isMissed: true }])
  })

  it('says itself how long it is of use, and an answer does not', () => {
    const clinic = new JoinedClinic()
    const step = createStep(content, flows)
    const at = Date.parse('2026-01-05T18:00:00Z')
    const asked = step(clinic.chart(), { id: brandAs<EventId>('due'), kind: 'wake' }, at)
    const { contact, prompt } = asked.document as Chart
    const press = { id: brandAs<EventId>('press'), kind: 'press', from: contact!, data: `p:${prompt!.number}:ready`, invitation: { token: '', link: '' } } as const
    const answered = step(asked.document, press, at + 1)

    expect(lasting(asked.effects)).toEqual([at + 2 * 3_600_000])
    expect(lasting(answered.effects)).toEqual([null])
  })
})

/** Until when the messages of a step are of use. */
function lasting(effects: readonly Effect[]): readonly (number | null)[] {
  return effects.flatMap((effect) => (effect.kind === 'send' ? [effect.until ?? null] : []))
}
