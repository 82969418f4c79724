import { describe, expect, it } from 'vitest'
import { colleagues, JoinedClinic } from '#tests/support/joined-clinic.ts'

function scoring(clinic = new JoinedClinic()): JoinedClinic {
  clinic.maren.write('score').skip().press('Orla Tiernan')
  return clinic
}

/** The open question of Maren's desk. */
function asks(clinic: JoinedClinic): string | null {
  const top = clinic.rig.desk(colleagues.maren.desk).conversations.at(-1)
  return top ? `${top.flow}.${top.state}` : null
}

describe('a disability score', () => {
  it('is typed as ten item scores, looked at, and then recorded', () => {
    const clinic = scoring()
    clinic.maren.write('2 1 3 0 2 - 1 2 4 1').press('Record it')
    expect(clinic.maren.read()).toMatchInlineSnapshot(`
      "Disability score of Orla Tiernan: the ten item scores in the order of your form, 0 to 5 each, with "-" where an item was not answered.
      ---
      Orla Tiernan: 2 1 3 0 2 – 1 2 4 1
      Raw 17.8 of 50, 35.6 per cent, band moderate, with 9 of 10 answered and the rest filled in by their mean.
      This is the first one, so there is nothing to compare it with.
      Shall this be recorded?
      → Record it
      ---
      Orla Tiernan: recorded."
    `)
    const items = [2, 1, 3, 0, 2, null, 1, 2, 4, 1]
    expect(clinic.chart().outcomes.disability).toEqual([{ at: clinic.rig.now, items }])
    expect(clinic.entries('disability').map(({ by, data }) => ({ by, items: data.items }))).toEqual([{ by: 'Maren Holt', items }])
  })

  it('is compared with the last one before it counts', () => {
    const clinic = scoring()
    clinic.maren.write('2 1 3 0 2 2 1 2 4 1').press('Record it')
    clinic.rig.moveTo('2026-02-02T09:00:00Z')
    scoring(clinic).maren.write('1 1 1 0 1 1 1 1 1 0')
    expect(clinic.maren.read()).toMatchInlineSnapshot(`
      "Disability score of Orla Tiernan: the ten item scores in the order of your form, 0 to 5 each, with "-" where an item was not answered.
      ---
      Orla Tiernan: 1 1 1 0 1 1 1 1 1 0
      Raw 8 of 50, 16 per cent, band mild.
      Since 2026-01-05 (18): Change -10, better. No verdict: the sources disagree on the error. (Reached: neck pain 4.7 / 5.5 by reliable change, mechanical neck pain 9.8; not reached: nerve-root pain 10.2 / 13.4, mechanical neck pain 10.2.)
      Shall this be recorded?
      [Record it] [Type it again] [Leave without saving]"
    `)
    expect(clinic.chart().outcomes.disability).toHaveLength(1)
  })

  it.each([
    ['three gaps', '2 1 3 0 2 - - - 4 1', 'Only 7 of 10 are answered. With more than two gaps there is no score.'],
    ['nine values', '2 1 3 0 2 1 2 4 1', 'I read 9 values. I need ten, in the order of the form.'],
    ['a value of 6', '2 1 3 0 6 1 1 2 4 1', 'Value 5 is neither a whole number from 0 to 5 nor "-".'],
  ])('with %s is asked for again, with what is wrong', (_title, typed, said) => {
    const clinic = scoring()
    clinic.maren.write(typed)
    expect(clinic.maren.read()).toContain(said)
    expect(asks(clinic)).toBe('disability.items')
  })

  it('is typed again or left without anything recorded', () => {
    const clinic = scoring()
    clinic.maren.write('2 1 3 0 2 2 1 2 4 1').press('Type it again')
    expect(asks(clinic)).toBe('disability.items')
    clinic.maren.write('2 1 3 0 2 2 1 2 4 1').press('Leave without saving')
    expect(asks(clinic)).toBeNull()
    expect(clinic.chart().outcomes.disability).toEqual([])
  })
})
