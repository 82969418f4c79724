import type { Flow, Flows } from '#src/conversation/flow.ts'
import { answering } from './answering.ts'
import { called } from './called.ts'
import { clearing } from './clearing.ts'
import { consent } from './consent.ts'
import { disability } from './disability.ts'
import { duty } from './duty.ts'
import { enrolment } from './enrolment.ts'
import { measuring } from './measuring.ts'
import { message } from './message.ts'
import { morning } from './morning.ts'
import { pause } from './pause.ts'
import { placing } from './placing.ts'
import { session } from './session.ts'
import { settlingIn } from './settling-in.ts'
import { symptom } from './symptom.ts'
import { times } from './times.ts'
import { weekly } from './weekly.ts'
import { withdrawal } from './withdrawal.ts'
import { zone } from './zone.ts'

const all: readonly Flow[] = [
  answering,
  called,
  clearing,
  consent,
  disability,
  duty,
  enrolment,
  measuring,
  message,
  morning,
  pause,
  placing,
  session,
  settlingIn,
  symptom,
  times,
  weekly,
  withdrawal,
  zone,
]

/** Every conversation, by id. */
export const flows: Flows = new Map(all.map((flow) => [flow.id, flow]))
