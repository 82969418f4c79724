// A clinic of three therapists and one client who has agreed, ready for the first session on Monday, 5 January 2026.
import type { Chart } from '#src/chart/chart.ts'
import { clinicId } from '#src/chart/clinic.ts'
import type { Cover } from '#src/chart/desk-card.ts'
import { digestOf } from '#src/chart/digest.ts'
import type { Flows } from '#src/conversation/flow.ts'
import type { Entry } from '#src/domain/entry.ts'
import { brandAs, type DocumentId } from '#src/domain/identifier.ts'
import { weekdays, type Plan } from '#src/domain/plan.ts'
import { ClinicRig } from './clinic-rig.ts'
import type { Person } from './person.ts'
import { extensionPlan } from './sample-chain.ts'

export const chartId = brandAs<DocumentId>('chart-00000000c11e')
const officeHours: Cover = { days: ['mon', 'tue', 'wed', 'thu', 'fri'], from: '08:00', to: '20:00' }

export const colleagues = {
  maren: { desk: brandAs<DocumentId>('desk-00000000aaaa'), name: 'Maren Holt', zone: 'Europe/Dublin', cover: officeHours },
  idris: { desk: brandAs<DocumentId>('desk-00000000bbbb'), name: 'Idris Vane', zone: 'Europe/Athens', cover: { days: weekdays, from: '07:00', to: '22:00' } },
  saoirse: { desk: brandAs<DocumentId>('desk-00000000cccc'), name: 'Saoirse Bly', zone: 'Europe/Dublin', cover: officeHours },
} as const

export interface SetAnswers {
  readonly pain: number
  /** Did chin, shoulders or body move to help, as on the buttons. */
  readonly moved?: 'No' | 'A little' | 'Yes'
  readonly reserve?: number
  readonly press?: 'Done' | 'I could not finish it'
}

export const cleanSet: SetAnswers = { pain: 1, moved: 'No', reserve: 3 }

export interface Opening {
  readonly plan?: Plan
  readonly startsAt?: string
  /** Instead of those shipped. */
  readonly flows?: Flows
}

export class JoinedClinic {
  readonly rig: ClinicRig
  /** Orla Tiernan. */
  readonly client: Person
  /** Maren Holt, Orla's therapist. */
  readonly maren: Person
  /** Idris Vane, the second contact, in another time zone. */
  readonly idris: Person
  /** Saoirse Bly, of the same clinic. */
  readonly saoirse: Person

  constructor({ plan = extensionPlan, startsAt = '2026-01-05T12:00:00Z', flows }: Opening = {}) {
    this.rig = new ClinicRig(startsAt, flows)
    this.client = this.rig.person('orla')
    this.maren = this.rig.person('maren')
    this.idris = this.rig.person('idris')
    this.saoirse = this.rig.person('saoirse')
    for (const name of ['maren', 'idris', 'saoirse'] as const) {
      const { desk, ...card } = colleagues[name]
      this.rig.tell(desk, { kind: 'opened', contact: this[name].contact, card })
    }
    this.rig.tell(chartId, { kind: 'enrolled', plan, therapist: colleagues.maren, second: colleagues.idris })
    const expiresAt = this.rig.now + 7 * 24 * 3_600_000
    this.rig.tell(clinicId, { kind: 'invited', digest: digestOf('an-invitation'), chart: chartId, expiresAt })
    this.client.open('an-invitation').press('Go on', 'Yes', 'Yes', 'Yes')
    this.readAll()
  }

  chart(): Chart {
    return this.rig.chart(chartId)
  }

  readAll(): void {
    for (const person of [this.client, this.maren, this.idris, this.saoirse]) person.skip()
  }

  entries(kind: string): readonly Entry[] {
    return this.rig.entries.filter((entry) => entry.kind === kind)
  }

  /** The open question, as flow and state; null where there is none. */
  get asks(): string | null {
    const top = this.chart().conversations.at(-1)
    return top ? `${top.flow}.${top.state}` : null
  }

  /** From the reminder, or a "ready", to the first set; what the last session left open is answered with the usual pain. */
  begin(painNow = 1): this {
    if (this.asks === 'session.ready') this.client.press('Ready')
    else this.client.write('ready')
    this.client.press('None of these')
    if (this.asks === 'session.morning') this.client.press('I do not remember')
    if (this.asks === 'session.worst-since') this.client.write('1')
    this.client.write(String(painNow))
    if (this.asks === 'session.warm-up') this.client.press('Done')
    return this
  }

  doSet({ pain, moved = 'No', reserve = 3, press = 'Done' }: SetAnswers = cleanSet): this {
    this.client.press(press).write(String(pain))
    if (this.asks === 'session.control') this.client.press(moved).write(String(reserve))
    // How hard the whole session was is for the tests of the training record.
    if (this.asks === 'session.effort') this.client.press('Skip this one')
    return this
  }

  doSets(...sets: readonly SetAnswers[]): this {
    for (const set of sets) this.doSet(set)
    return this
  }

  /** The dose line of every set that was asked, as the client read it. */
  get dosesAsked(): readonly string[] {
    return this.client.messages.flatMap(({ text }) => /Set \d of \d – .*/.exec(text) ?? [])
  }

  /** A whole clean session, at the present time. */
  train(): this {
    this.begin()
    while (this.asks === 'session.set') this.doSet()
    return this
  }
}

/** Monday, 18:00, asked for the first set, with everything before it read. */
export function inFirstSet({ painNow = 1, ...opening }: Opening & { readonly painNow?: number } = {}): JoinedClinic {
  const clinic = new JoinedClinic(opening)
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.begin(painNow).readAll()
  return clinic
}
