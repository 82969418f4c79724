// The small derived part of a document that look-ups read.
import type { Head } from '#src/ports/store.ts'
import type { Chart } from './chart.ts'
import type { Clinic } from './clinic.ts'
import type { Desk } from './desk.ts'
import { earliestDue } from './timer.ts'

export type AnyDocument = Clinic | Desk | Chart

const heads: { readonly [Kind in AnyDocument['kind']]: (document: Extract<AnyDocument, { kind: Kind }>) => Head } = {
  clinic: ({ id }) => ({ ...empty, id, kind: 'clinic' }),
  desk: ({ id, name, contact, timers }) => ({
    ...empty,
    id,
    kind: 'desk',
    name,
    contacts: contact ? [contact] : [],
    nextDueAt: earliestDue(timers),
  }),
  chart: (chart) => ({
    id: chart.id,
    kind: 'chart',
    name: chart.plan?.client.name ?? '',
    contacts: chart.contact ? [chart.contact] : [],
    nextDueAt: earliestDue(chart.timers),
    openAlerts: chart.alerts.length,
    isLocked: chart.lock !== null,
    approvalsWaiting: chart.requests.filter((request) => !request.isDeclined).length,
    lastSessionAt: chart.lastSessionAt,
  }),
}

const empty = { name: '', contacts: [], nextDueAt: null, openAlerts: 0, isLocked: false, approvalsWaiting: 0, lastSessionAt: null }

export function headOf(document: AnyDocument): Head {
  return (heads[document.kind] as (document: AnyDocument) => Head)(document)
}
