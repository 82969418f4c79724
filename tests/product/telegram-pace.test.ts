// What the network asks of us, and what its clock may do.
import { describe, expect, it } from 'vitest'
import { weekdays } from '#src/domain/plan.ts'
import { refuse } from '#tests/support/telegram-api.ts'
import { tryPlan } from '#tests/support/telegram-clinic.ts'
import { client, joinClient, mondaySession, openClinic, openStaffedClinic, settleIn, therapist } from './telegram-people.ts'

const dayMs = 24 * 3_600_000

describe('a chat for which the network asks to wait three seconds', () => {
  it('gets each message once and in order, not before, and no other chat is delayed', async () => {
    const clinic = await openStaffedClinic()
    await clinic.advanceTo(mondaySession)
    clinic.api.plan('sendMessage', refuse(429, 'Too Many Requests: retry after 3', { retry_after: 3 }))
    const before = clinic.sentTo(client).length
    await clinic.press(client, 'Ready')
    await clinic.say(client, 'help')
    const meanwhile = await clinic.during(therapist, () => clinic.say(therapist, 'help'))
    await clinic.clock.advance(2_999)
    await clinic.settle()
    const refused = clinic.sentTo(client).slice(before)
    await clinic.clock.advance(1)
    await clinic.settle()
    const taken = clinic.sentTo(client).slice(before + refused.length)

    expect(meanwhile).toHaveLength(1)
    expect(refused).toHaveLength(1)
    expect(taken.map(({ text }) => text.slice(0, 28))).toEqual(['First the safety check. Sinc', 'If something feels wrong, st'])
    expect(taken[0]).toEqual(refused[0])
  })
})

describe('a clock that is set', () => {
  it('back or ahead by a day repeats no reminder of a local date, and the reminders go on', async () => {
    const clinic = await openClinic()
    await settleIn(clinic)
    await joinClient(clinic, { ...tryPlan, schedule: { ...tryPlan.schedule, days: weekdays } })
    const reminders = () => clinic.sentTo(client).filter(({ text }) => text.startsWith('Hello Orla Tiernan. It is time')).length
    await clinic.advanceTo(mondaySession)
    const onMonday = reminders()
    clinic.clock.jump(-dayMs)
    await clinic.advanceTo(mondaySession + 3_600_000)
    const onMondayAgain = reminders()
    await clinic.advanceTo(mondaySession + dayMs)
    const onTuesday = reminders()
    clinic.clock.jump(dayMs)
    await clinic.advanceTo(mondaySession + 2 * dayMs)
    const afterTheJump = reminders()
    await clinic.advanceTo(mondaySession + 3 * dayMs)

    expect([onMonday, onMondayAgain, onTuesday, afterTheJump, reminders()]).toEqual([1, 1, 2, 3, 4])
  })
})
