import { z } from 'zod'
import { directions } from '#src/domain/direction.ts'
import { controls } from '#src/domain/set-report.ts'

const pain = z.number().int().min(0).max(10)
const says = z.string().max(4096)

const setAnswer = z.strictObject({
  pain: pain.nullable().optional(),
  control: z.enum(controls).nullable().optional(),
  reserve: z.number().int().min(0).max(100).nullable().optional(),
  finished: z.boolean().optional(),
  says: says.nullable().optional(),
})

const session = z.strictObject({
  day: z.number().int().min(0).max(3650),
  before: z.strictObject({ pain: pain.nullable().optional(), says: says.nullable().optional() }).nullable().optional(),
  sets: z.partialRecord(z.enum(directions), z.array(setAnswer.nullable()).max(100)).optional(),
  morning: z.strictObject({ pain: pain.nullable().optional() }).nullable().optional(),
  clear: z.boolean().optional(),
})

/** ANSWERS of `rehearse`; unknown keys are refused. */
export const answersSchema = z
  .strictObject({ sessions: z.array(session).max(2000), approve: z.boolean().optional() })
  .superRefine(({ sessions }, context) => {
    sessions.forEach(({ day }, index) => {
      const before = sessions[index - 1]
      if (before && day <= before.day) {
        context.addIssue({ code: 'custom', path: ['sessions', index, 'day'], message: `must be later than day ${before.day}` })
      }
    })
  })

export type Answers = z.infer<typeof answersSchema>
export type SessionAnswers = Answers['sessions'][number]
export type SetAnswer = z.infer<typeof setAnswer>

/** Whether a set was done and wholly answered; anything less was not done or not answered. */
export function isWhole(answer: SetAnswer | null | undefined): answer is SetAnswer & { pain: number; control: (typeof controls)[number]; reserve: number } {
  return answer != null && answer.pain != null && answer.control != null && answer.reserve != null
}
