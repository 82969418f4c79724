// Where the walk through the conversations begins: every occasion on which one is opened.
import { clinicId } from '#src/chart/clinic.ts'
import { brandAs, type DocumentId } from '#src/domain/identifier.ts'
import { weekdays, type Plan } from '#src/domain/plan.ts'
import { ClinicRig } from '#tests/support/clinic-rig.ts'
import { chartId, colleagues, JoinedClinic } from '#tests/support/joined-clinic.ts'
import type { Person } from '#tests/support/person.ts'
import { allDirectionsPlan, extensionPlan } from '#tests/support/sample-chain.ts'
import { countedFlows } from './count-ways.ts'
import type { Speaking, Standing } from './walk.ts'

function standing(rig: ClinicRig, document: Speaking, person: Person): Standing {
  const shown = person.messages.find((message) => message.effect === document.prompt?.effect)
  return { document, at: rig.now, buttons: shown?.buttons.map((button) => button.data) ?? [], said: [], tells: 0, taken: [...rig.taken] }
}

export function clientAt(clinic: JoinedClinic): Standing {
  return standing(clinic.rig, clinic.chart(), clinic.client)
}

function deskAt(rig: ClinicRig, desk: DocumentId, person: Person): Standing {
  return standing(rig, rig.desk(desk), person)
}

const knownSigns = [{ sign: 'arm-numbness', words: 'arm-numbness', side: null, area: '', worst: 0 }] as const
/** Two exercises of three sets would only make the walk longer. */
const plan = { ...extensionPlan, knownSigns }

function newClinic(of: Plan): JoinedClinic {
  return new JoinedClinic({ plan: of, flows: countedFlows })
}

export function consenting(): Standing {
  const rig = new ClinicRig('2026-01-05T12:00:00Z', countedFlows)
  const client = rig.person('orla')
  rig.tell(chartId, { kind: 'enrolled', plan, therapist: colleagues.maren, second: null })
  rig.tell(chartId, { kind: 'joined', contact: client.contact })
  return standing(rig, rig.chart(chartId), client)
}

/** Monday's reminder: nothing was trained before. */
export function firstReminder(): Standing {
  const clinic = newClinic(plan)
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  return clientAt(clinic)
}

/** Wednesday's: Monday's morning was never answered. */
export function secondReminder(): Standing {
  const clinic = newClinic(plan)
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.train().rig.moveTo('2026-01-07T18:00:00Z')
  return clientAt(clinic)
}

export function morningAfter(): Standing {
  const clinic = newClinic(plan)
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.train().rig.moveTo('2026-01-06T08:00:00Z')
  return clientAt(clinic)
}

/** In the fourth one everything is asked. */
export function weekly(at: string): Standing {
  const clinic = newClinic(plan)
  clinic.rig.moveTo(at)
  return clientAt(clinic)
}

/** Where all was asked a week ago. */
export function secondWeek(): Standing {
  const clinic = newClinic(plan)
  clinic.rig.moveTo('2026-01-12T08:00:00Z')
  clinic.client.write('2', '1', '3', 'no')
  clinic.rig.moveTo('2026-01-19T08:00:00Z')
  return clientAt(clinic)
}

/** On the 42nd day without a review nothing is trained. */
export function unreviewed(): Standing {
  const schedule = { ...plan.schedule, days: weekdays }
  const clinic = newClinic({ ...plan, schedule })
  clinic.rig.moveTo('2026-02-16T18:00:00Z')
  return clientAt(clinic)
}

/** In the middle of a set, in a state of another version that is gone. */
export function ofGoneState(): Standing {
  const clinic = newClinic(plan)
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.begin().client.press('Done').write('2')
  const chart = clinic.chart()
  clinic.rig.store({ ...chart, conversations: chart.conversations.map((one) => ({ ...one, state: 'gone' })) })
  clinic.client.write('hm')
  return clientAt(clinic)
}

/** In the first set, with words that name a sign the therapist knows, and with words that may mean one. */
export function inWords(words: string): Standing {
  const clinic = newClinic(plan)
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.begin().client.write(words)
  return clientAt(clinic)
}

/** With nothing open, a wish apart from training. */
export function aside(words: string): Standing {
  const clinic = newClinic(plan)
  clinic.client.write(words)
  return clientAt(clinic)
}

/** Asked how hard the session was, a wish to leave for good. */
export function leavingAfterSession(): Standing {
  const clinic = newClinic(plan)
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.begin()
  while (clinic.asks === 'session.set') clinic.client.press('Done').write('1').press('No').write('3')
  clinic.client.write('unsubscribe')
  return clientAt(clinic)
}

/** A break whose end nobody knew is asked about a week later. */
export function askedWhetherOver(reason: string): Standing {
  const clinic = newClinic(plan)
  clinic.client.write('pause').press(reason)
  if (clinic.asks === 'symptom.ask') clinic.client.press('None of these')
  clinic.client.press('I do not know yet')
  clinic.rig.moveTo('2026-01-12T08:00:00Z')
  return clientAt(clinic)
}

export function answering(): Standing {
  const clinic = newClinic(plan)
  clinic.client.write('tell my therapist: the band is torn')
  clinic.maren.press('Answer')
  return deskAt(clinic.rig, colleagues.maren.desk, clinic.maren)
}

const newDesk = brandAs<DocumentId>('desk-00000000dddd')

export function settlingIn(): Standing {
  const rig = new ClinicRig('2026-01-05T12:00:00Z', countedFlows)
  const person = rig.person('dana')
  rig.tell(newDesk, { kind: 'opened', contact: person.contact, card: null })
  return deskAt(rig, newDesk, person)
}

export function enrolling(): Standing {
  const { rig, maren } = newClinic(plan)
  maren.write('enrol')
  return deskAt(rig, colleagues.maren.desk, maren)
}

export function clearing(): Standing {
  const clinic = newClinic(plan)
  clinic.client.write('my face went numb')
  clinic.maren.press('Clear the lock …')
  return deskAt(clinic.rig, colleagues.maren.desk, clinic.maren)
}

const untilLadders = [
  ...['enrol', 'Noor Lindqvist', 'Europe/Dublin', '112', '116 117', '41', '120/80', 'none', '1', 'none', 'none'],
  ...['none', 'none', 'light: 10 cm 8 N, 30 cm 20 N', 'no', 'yes', 'none', '1'],
]
/** Rung, highest rung, what was shown, the maximum. */
const extension = ['2', '3', '2', '120 N']

/** Only where a load may be prescribed is a maximum asked for. */
export function enrollingWithBand(): Standing {
  const { rig, maren } = newClinic(plan)
  maren.write(...untilLadders)
  return deskAt(rig, colleagues.maren.desk, maren)
}

/** More of them than a check can bear. */
export function namingKnownSigns(): Standing {
  const { rig, maren } = newClinic(plan)
  maren.write(...untilLadders.slice(0, untilLadders.indexOf('none') + 2), '1, 2, 3, 4, 5, 6')
  return deskAt(rig, colleagues.maren.desk, maren)
}

/** At the second of two directions. */
export function enrollingForTwo(): Standing {
  const { rig, maren } = newClinic(plan)
  maren.write(...untilLadders, '1, 2', ...extension)
  return deskAt(rig, colleagues.maren.desk, maren)
}

/** Read back: usable, or with a training time in the quiet hours. */
export function enrolledInFull(time: string): Standing {
  const { rig, maren } = newClinic(plan)
  maren.write(...untilLadders, '1', ...extension, 'mon, wed, fri', time, '21:00-08:00', '1', 'English')
  return deskAt(rig, colleagues.maren.desk, maren)
}

const everyDirection = { ...allDirectionsPlan, client: extensionPlan.client }

export function measuring(of: Plan): Standing {
  const { rig, maren } = newClinic(of)
  maren.write('measure').press('Orla Tiernan')
  return deskAt(rig, colleagues.maren.desk, maren)
}

export function placing(of: Plan): Standing {
  const { rig, maren } = newClinic(of)
  maren.write('clients').press('Orla Tiernan', 'Set a dose by hand')
  return deskAt(rig, colleagues.maren.desk, maren)
}

/** Alone in the clinic, or with colleagues who can stand in. */
export function onDuty(isAlone: boolean): Standing {
  const { rig, maren } = newClinic(plan)
  if (isAlone) rig.store({ ...rig.desk(colleagues.maren.desk), colleagues: [] })
  maren.write('duty')
  return deskAt(rig, colleagues.maren.desk, maren)
}

export function backFromAway(): Standing {
  const { rig, maren } = newClinic(plan)
  maren.write('duty', '1', '2026-01-12', '2026-01-19', '1', '1').write('duty')
  return deskAt(rig, colleagues.maren.desk, maren)
}

export function scoring(): Standing {
  const { rig, maren } = newClinic(plan)
  maren.write('score').press('Orla Tiernan')
  return deskAt(rig, colleagues.maren.desk, maren)
}

export function emptyClinic(): ClinicRig {
  const rig = new ClinicRig('2026-01-05T12:00:00Z', countedFlows)
  rig.tell(clinicId, { kind: 'settled-in', card: colleagues.maren })
  return rig
}

export const allStarts = {
  consenting,
  'first reminder': firstReminder,
  'second reminder': secondReminder,
  'morning after': morningAfter,
  'first week': () => weekly('2026-01-12T08:00:00Z'),
  'second week': secondWeek,
  'fourth week': () => weekly('2026-02-02T08:00:00Z'),
  'without a review': unreviewed,
  'a state that is gone': ofGoneState,
  'known sign': () => inWords('my hand tingles'),
  'unsure words': () => inWords('is it normal that my face might be numb?'),
  'unclear words': () => inWords('my face feels funny is that bad?? im scared'),
  'a break': () => aside('pause'),
  'other times': () => aside('change times'),
  'another zone': () => aside('change my time zone'),
  'a word to the therapist': () => aside('message my therapist'),
  leaving: () => aside('unsubscribe'),
  'leaving after a session': leavingAfterSession,
  'after a break': () => askedWhetherOver('I am away'),
  'after an illness': () => askedWhetherOver('I am ill'),
  'settling in': settlingIn,
  enrolling,
  'enrolling with a band': enrollingWithBand,
  'enrolling for two directions': enrollingForTwo,
  'enrolling with many known signs': namingKnownSigns,
  'enrolled in full': () => enrolledInFull('18:00'),
  'enrolled with a plan that cannot be used': () => enrolledInFull('22:00'),
  clearing,
  scoring,
  'measuring one direction': () => measuring(plan),
  'measuring several': () => measuring(everyDirection),
  'placing one ladder': () => placing(plan),
  'placing one of several': () => placing(everyDirection),
  'duty, with colleagues': () => onDuty(false),
  'duty, alone': () => onDuty(true),
  'duty, while away': backFromAway,
  answering,
} as const
