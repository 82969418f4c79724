// The moments in which documents are stored for a release: every question of every conversation, and what lasts longer.
import { allStarts } from '../../flows/starts.ts'
import { asksOf, walk } from '../../flows/walk.ts'
import { clinicId } from '#src/chart/clinic.ts'
import { digestOf } from '#src/chart/digest.ts'
import type { ActKind } from '#src/chart/event.ts'
import type { DocumentId, Instant } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import { ClinicRig, type Taken } from '../clinic-rig.ts'
import { chartId, colleagues, JoinedClinic, type SetAnswers } from '../joined-clinic.ts'
import { extensionPlan } from '../sample-chain.ts'

export interface StoredCase {
  readonly name: string
  /** The documents that are kept of it. */
  readonly documents: readonly DocumentId[]
  readonly taken: readonly Taken[]
  readonly at: Instant
  /** The process ended right after the last commit: what was owed then stays owed. */
  readonly isCutOff: boolean
}

/** The first standing at each question, by `flow.state`; what the walk takes to get there is what is stored. */
function questionCases(): readonly StoredCase[] {
  const firsts = new Map<string, StoredCase>()
  // A question about a sign is stored of somebody who trains, rather than of somebody who has not agreed yet.
  const { consenting, ...others } = allStarts
  for (const start of [...Object.values(others), consenting]) {
    for (const standing of walk([start()])) {
      const { document, taken, at } = standing
      const name = String(asksOf(standing)).replace('.', '-')
      if (!firsts.has(name)) firsts.set(name, { name, documents: [document.id], taken, at, isCutOff: false })
    }
  }
  return [...firsts.values()]
}

function act(clinic: JoinedClinic, kind: ActKind, about: string): void {
  const { revision } = clinic.chart()
  clinic.rig.submit(chartId, { kind: 'act', by: { desk: colleagues.maren.desk, name: 'Maren Holt' }, act: kind, about, seenRevision: revision })
}

function actOnAlert(clinic: JoinedClinic, kind: ActKind): void {
  act(clinic, kind, String(clinic.chart().alerts[0]?.id))
}

/** On Monday in the first set. */
function training(plan: Plan = extensionPlan): JoinedClinic {
  const clinic = new JoinedClinic({ plan })
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  return clinic.begin()
}

function afterSession(sets: readonly SetAnswers[]): JoinedClinic {
  const clinic = training()
  for (const set of sets) if (clinic.asks === 'session.set') clinic.doSet(set)
  if (String(clinic.asks) === 'symptom.ask') clinic.client.press('None of these')
  while (clinic.asks === 'session.set') clinic.doSet()
  return clinic
}

/** Every scheduled day of so many weeks, each morning answered, the therapist's review after four. */
function weeksOf(plan: Plan, weeks: number): JoinedClinic {
  const clinic = new JoinedClinic({ plan })
  for (let day = 0; day < weeks * 7; day += 1) {
    clinic.rig.moveTo(new Date(Date.UTC(2026, 0, 5 + day, 9)).toISOString())
    if (clinic.asks === 'morning.pain') clinic.client.write('1')
    if (clinic.asks?.startsWith('weekly') === true) clinic.client.write('1')
    if (day % 28 === 27) act(clinic, 'review', 'now')
    for (const request of clinic.chart().requests) act(clinic, 'permit', request.id)
    clinic.rig.moveTo(new Date(Date.UTC(2026, 0, 5 + day, 18)).toISOString())
    if (clinic.asks === 'session.ready') clinic.train()
  }
  return clinic
}

const painful: SetAnswers = { pain: 6 }
const shaky: SetAnswers = { pain: 1, moved: 'A little' }
const lost: SetAnswers = { pain: 1, moved: 'Yes' }

/** What lasts beyond one question, by name. */
const situations: Readonly<Record<string, () => JoinedClinic>> = {
  idle: () => new JoinedClinic(),
  'session-half-done': () => training().doSet().doSet(shaky),
  'session-corrected': () => {
    const clinic = training().doSet()
    clinic.client.write('sorry, I meant 0')
    return clinic
  },
  'session-eased': () => training().doSet({ pain: 4 }),
  'pending-clean': () => afterSession([]),
  'pending-shaky': () => afterSession([shaky]),
  'pending-lost': () => afterSession([lost, lost]),
  'pending-painful': () => afterSession([painful]),
  'pending-after-bad-morning': () => {
    const clinic = afterSession([])
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    clinic.client.write('5')
    return clinic
  },
  'pending-overnight-in-the-band': () => {
    const clinic = training(startingAt(3))
    while (clinic.asks === 'session.set') clinic.doSet()
    return clinic
  },
  'held-at-the-lowest-dose': () => {
    const clinic = new JoinedClinic({ plan: startingAt(1) })
    for (let day = 5; day < 27 && clinic.chart().requests.length === 0; day += 1) {
      clinic.rig.moveTo(new Date(Date.UTC(2026, 0, day, 18)).toISOString())
      if (clinic.asks !== 'session.ready') continue
      clinic.begin().client.press('Done').write('7')
      if (String(clinic.asks) === 'symptom.ask') clinic.client.press('None of these')
    }
    return clinic
  },
  'asked-for-the-next-rung': () => {
    const clinic = new JoinedClinic({ plan: { ...extensionPlan, ladders: extensionPlan.ladders.map((own) => ({ ...own, shown: [] })) } })
    for (let day = 5; day < 27 && clinic.chart().requests.length === 0; day += 1) {
      clinic.rig.moveTo(new Date(Date.UTC(2026, 0, day, 18)).toISOString())
      if (clinic.asks === 'session.ready') clinic.train()
    }
    return clinic
  },
  unreachable: () => {
    const clinic = training().doSet()
    clinic.client.block()
    clinic.rig.moveTo('2026-01-07T19:00:00Z')
    return clinic
  },
  'locked-urgent': () => {
    const clinic = training().doSet()
    clinic.client.write('my arm went numb')
    return clinic
  },
  'locked-urgent-acknowledged': () => {
    const clinic = training().doSet()
    clinic.client.write('my arm went numb')
    clinic.rig.pass({ hours: 3 })
    actOnAlert(clinic, 'acknowledge')
    return clinic
  },
  'locked-emergency': () => {
    const clinic = training()
    clinic.client.write('half my face is drooping')
    clinic.rig.pass({ minutes: 12 })
    return clinic
  },
  'locked-emergency-contacted': () => {
    const clinic = training()
    clinic.client.write('half my face is drooping')
    actOnAlert(clinic, 'acknowledge')
    clinic.client.press('Called')
    actOnAlert(clinic, 'contacted')
    return clinic
  },
  'cleared-and-back': () => {
    const clinic = training().doSet()
    clinic.client.write('my arm went numb')
    actOnAlert(clinic, 'acknowledge')
    actOnAlert(clinic, 'contacted')
    clinic.rig.tell(chartId, { kind: 'cleared', by: { desk: colleagues.maren.desk, name: 'Maren Holt' }, assessed: 'seen', reason: 'examined', dose: 'usual' })
    return clinic
  },
  'four-weeks': () => weeksOf(extensionPlan, 4),
  'nine-weeks-in-the-band': () => weeksOf(startingAt(3), 9),
}

function startingAt(rung: number): Plan {
  return { ...extensionPlan, ladders: extensionPlan.ladders.map((ladder) => ({ ...ladder, rung })) }
}

function situationCases(): readonly StoredCase[] {
  return Object.entries(situations).map(([name, make]) => {
    const { rig } = make()
    return { name, documents: [chartId], taken: rig.taken, at: rig.now, isCutOff: name === 'locked-emergency' || name === 'pending-painful' }
  })
}

/** The documents that all the others tell something, as they are while invitations are open. */
function clinicCases(): readonly StoredCase[] {
  const { rig } = new JoinedClinic()
  rig.tell(clinicId, { kind: 'invited', digest: digestOf('another-invitation'), chart: null, expiresAt: rig.now + 604_800_000 })
  const invited = new ClinicRig('2026-01-05T12:00:00Z')
  invited.tell(chartId, { kind: 'enrolled', plan: extensionPlan, therapist: colleagues.maren, second: null })
  const refused = new ClinicRig('2026-01-05T12:00:00Z')
  refused.tell(chartId, { kind: 'enrolled', plan: extensionPlan, therapist: colleagues.maren, second: null })
  refused.tell(chartId, { kind: 'joined', contact: refused.person('orla').contact })
  refused.person('orla').press('Go on', 'No')
  const desks = [colleagues.maren.desk, colleagues.idris.desk, colleagues.saoirse.desk]
  return [
    { name: 'clinic', documents: [clinicId, ...desks], taken: rig.taken, at: rig.now, isCutOff: false },
    { name: 'invited', documents: [chartId], taken: invited.taken, at: invited.now, isCutOff: false },
    { name: 'refused', documents: [chartId], taken: refused.taken, at: refused.now, isCutOff: false },
  ]
}

/** Every case that a release is stored with; the order does not matter. */
export function storedCases(): readonly StoredCase[] {
  return [...clinicCases(), ...situationCases(), ...questionCases()]
}
