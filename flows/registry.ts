import type { Flow, Flows } from '#src/conversation/flow.ts'
import { called } from './called.ts'
import { clearing } from './clearing.ts'
import { consent } from './consent.ts'
import { disability } from './disability.ts'
import { enrolment } from './enrolment.ts'
import { measuring } from './measuring.ts'
import { morning } from './morning.ts'
import { placing } from './placing.ts'
import { session } from './session.ts'
import { settlingIn } from './settling-in.ts'
import { symptom } from './symptom.ts'
import { weekly } from './weekly.ts'

const all: readonly Flow[] = [called, clearing, consent, disability, enrolment, measuring, morning, placing, session, settlingIn, symptom, weekly]

/** Every conversation, by id. */
export const flows: Flows = new Map(all.map((flow) => [flow.id, flow]))
