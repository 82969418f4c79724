// Where the walk through the conversations begins: every occasion on which one is opened.
import { clinicId } from '#src/chart/clinic.ts'
import { brandAs, type DocumentId } from '#src/domain/identifier.ts'
import { ClinicRig } from '#tests/support/clinic-rig.ts'
import { chartId, colleagues, JoinedClinic } from '#tests/support/joined-clinic.ts'
import type { Person } from '#tests/support/person.ts'
import { allDirectionsPlan, extensionPlan } from '#tests/support/sample-chain.ts'
import type { Speaking, Standing } from './walk.ts'

function standing(rig: ClinicRig, document: Speaking, person: Person): Standing {
  const shown = person.messages.find((message) => message.effect === document.prompt?.effect)
  return { document, at: rig.now, buttons: shown?.buttons.map((button) => button.data) ?? [], said: [], tells: 0 }
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

export function consenting(): Standing {
  const rig = new ClinicRig('2026-01-05T12:00:00Z')
  const client = rig.person('orla')
  rig.tell(chartId, { kind: 'enrolled', plan, therapist: colleagues.maren, second: null })
  rig.tell(chartId, { kind: 'joined', contact: client.contact })
  return standing(rig, rig.chart(chartId), client)
}

/** Monday's reminder: nothing was trained before. */
export function firstReminder(): Standing {
  const clinic = new JoinedClinic({ plan })
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  return clientAt(clinic)
}

/** Wednesday's: Monday's morning was never answered. */
export function secondReminder(): Standing {
  const clinic = new JoinedClinic({ plan })
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.train().rig.moveTo('2026-01-07T18:00:00Z')
  return clientAt(clinic)
}

export function morningAfter(): Standing {
  const clinic = new JoinedClinic({ plan })
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.train().rig.moveTo('2026-01-06T08:00:00Z')
  return clientAt(clinic)
}

/** The fourth one, in which everything is asked. */
export function weekly(): Standing {
  const clinic = new JoinedClinic({ plan })
  clinic.rig.moveTo('2026-02-02T08:00:00Z')
  return clientAt(clinic)
}

/** In the first set, with words that name a sign the therapist knows, and with words that may mean one. */
export function inWords(words: string): Standing {
  const clinic = new JoinedClinic({ plan })
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.begin().client.write(words)
  return clientAt(clinic)
}

const newDesk = brandAs<DocumentId>('desk-00000000dddd')

export function settlingIn(): Standing {
  const rig = new ClinicRig('2026-01-05T12:00:00Z')
  const person = rig.person('dana')
  rig.tell(newDesk, { kind: 'opened', contact: person.contact, card: null })
  return deskAt(rig, newDesk, person)
}

export function enrolling(): Standing {
  const { rig, maren } = new JoinedClinic({ plan })
  maren.write('enrol')
  return deskAt(rig, colleagues.maren.desk, maren)
}

export function clearing(): Standing {
  const clinic = new JoinedClinic({ plan })
  clinic.client.write('my face went numb')
  clinic.maren.press('Clear the lock …')
  return deskAt(clinic.rig, colleagues.maren.desk, clinic.maren)
}

/** Only where a load may be prescribed is a maximum asked for. */
export function enrollingWithBand(): Standing {
  const { rig, maren } = new JoinedClinic({ plan })
  maren.write('enrol', 'Noor Lindqvist', 'Europe/Dublin', '112', '116 117', '41', '120/80', 'none', '1', 'none', 'none')
  maren.write('none', 'none', 'light: 10 cm 8 N, 30 cm 20 N', 'no', 'yes', 'none', '1')
  return deskAt(rig, colleagues.maren.desk, maren)
}

const everyDirection = { ...allDirectionsPlan, client: extensionPlan.client }

export function measuring(): Standing {
  const { rig, maren } = new JoinedClinic({ plan: everyDirection })
  maren.write('measure').press('Orla Tiernan')
  return deskAt(rig, colleagues.maren.desk, maren)
}

export function placing(): Standing {
  const { rig, maren } = new JoinedClinic({ plan: everyDirection })
  maren.write('clients').press('Orla Tiernan', 'Set a dose by hand')
  return deskAt(rig, colleagues.maren.desk, maren)
}

export function scoring(): Standing {
  const { rig, maren } = new JoinedClinic({ plan })
  maren.write('score').press('Orla Tiernan')
  return deskAt(rig, colleagues.maren.desk, maren)
}

export function emptyClinic(): ClinicRig {
  const rig = new ClinicRig('2026-01-05T12:00:00Z')
  rig.tell(clinicId, { kind: 'settled-in', card: colleagues.maren })
  return rig
}

export const allStarts = {
  consenting,
  'first reminder': firstReminder,
  'second reminder': secondReminder,
  'morning after': morningAfter,
  weekly,
  'known sign': () => inWords('my hand tingles'),
  'unsure words': () => inWords('is it normal that my face might be numb?'),
  'settling in': settlingIn,
  enrolling,
  'enrolling with a band': enrollingWithBand,
  clearing,
  scoring,
  measuring,
  placing,
} as const
