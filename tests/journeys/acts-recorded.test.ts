// Everything a therapist does about a client stands in the record, with whose act it was and when.
import { describe, expect, it } from 'vitest'
import { actKinds, type ActKind, type Told } from '#src/chart/event.ts'
import type { Entry } from '#src/domain/entry.ts'
import { newLadderState } from '#src/rules/ladder-state.ts'
import { chartId, colleagues, inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'
import { chainFor, extensionPlan } from '#tests/support/sample-chain.ts'

const by = { desk: colleagues.maren.desk, name: 'Maren Holt' }

function locked(): JoinedClinic {
  const clinic = inFirstSet()
  clinic.client.write('my arm went numb')
  return clinic
}

/** With something for every act to be about. */
function withRequests(): JoinedClinic {
  const clinic = locked()
  const [shown] = extensionPlan.ladders[0]?.shown ?? []
  if (!shown) throw new Error('the sample plan has nothing shown')
  const request = { ladder: 'extension', rung: 3, exercise: shown, needsApproval: true, at: 0, isDeclined: false } as const
  const requests = [{ ...request, id: 'rung-3-extension', kind: 'rung' as const }, { ...request, id: 'lowest-extension', kind: 'lowest-dose' as const }]
  const [place] = chainFor(extensionPlan).places
  if (!place) throw new Error('the sample chain is empty')
  clinic.rig.store({ ...clinic.chart(), requests, states: { extension: newLadderState(place) } })
  return clinic
}

/** What each act is about, and what it leaves beside the entry of the act itself. */
const acts: Readonly<Record<ActKind, { readonly about: string; readonly also: readonly string[] }>> = {
  acknowledge: { about: 'a1', also: ['alert-acknowledged'] },
  contacted: { about: 'a1', also: ['alert-acknowledged', 'contact'] },
  clear: { about: 'a1', also: [] },
  permit: { about: 'rung-3-extension', also: ['permitted'] },
  decline: { about: 'rung-3-extension', also: ['declined'] },
  resume: { about: 'lowest-extension', also: ['resumed'] },
  review: { about: 'now', also: ['review'] },
  look: { about: 'now', also: [] },
  measure: { about: 'now', also: [] },
  place: { about: 'now', also: [] },
  score: { about: 'now', also: [] },
  explain: { about: 'now', also: [] },
  loads: { about: 'now', also: [] },
  answer: { about: 'now', also: [] },
}

/** What a desk tells a chart, as often as the chart's types say that it is somebody's act. */
type ByTherapist = Extract<Told, { readonly by: unknown }>
const told: { readonly [Kind in ByTherapist['kind']]: { readonly told: Extract<ByTherapist, { kind: Kind }>; readonly entry: string; readonly after: () => JoinedClinic } } = {
  cleared: { told: { kind: 'cleared', by, assessed: 'seen', reason: 'examined', dose: 'usual' }, entry: 'cleared', after: locked },
  measured: {
    told: { kind: 'measured', by, measurements: [{ ...extensionPlan.measurements[0]!, force: 118 }] },
    entry: 'measured',
    after: () => new JoinedClinic(),
  },
  amended: {
    told: { kind: 'amended', by, plan: { ...extensionPlan, usualPain: 2 as never }, reason: 'seen today', therapist: null, second: null },
    entry: 'plan-amended',
    after: () => new JoinedClinic(),
  },
  placed: {
    told: { kind: 'placed', by, ladder: 'extension', place: chainFor(extensionPlan).places[0]!, reason: 'seen today' },
    entry: 'placed',
    after: () => {
      const clinic = new JoinedClinic()
      clinic.rig.store({ ...clinic.chart(), states: { extension: newLadderState(chainFor(extensionPlan).places[3]!) } })
      return clinic
    },
  },
  scored: { told: { kind: 'scored', by, items: [1, 1, 1, 1, 1, 1, 1, 1, 1, 1] as never }, entry: 'disability', after: () => new JoinedClinic() },
  answered: { told: { kind: 'answered', by, text: 'see you on Monday' }, entry: 'message', after: () => new JoinedClinic() },
}

function since(clinic: JoinedClinic, act: () => void): readonly Entry[] {
  const before = clinic.rig.entries.length
  act()
  return clinic.rig.entries.slice(before)
}

describe('a therapist’s press', () => {
  it.each(actKinds)('leaves who did it, at which desk, when and what they saw: %s', (act) => {
    const clinic = withRequests()
    const { about, also } = acts[act]
    const entries = since(clinic, () => clinic.maren.pressData(`m:${chartId}:7:${act}:${about}`))
    const theirs = entries.filter((entry) => entry.by === 'Maren Holt')
    expect(theirs.map(({ kind }) => kind)).toEqual([...also, 'act'])
    expect(theirs.map(({ at, data }) => ({ at, desk: data.desk }))).toEqual(theirs.map(() => ({ at: clinic.rig.now, desk: by.desk })))
    expect(theirs.at(-1)?.data).toEqual({ act, about, seenRevision: 7, desk: by.desk })
  })
})

describe('what a therapist has decided at their desk', () => {
  it.each(Object.values(told))('leaves who did it, at which desk and when: $entry', ({ told: matter, entry, after }) => {
    const clinic = after()
    const entries = since(clinic, () => clinic.rig.tell(chartId, matter))
    const theirs = entries.filter(({ kind }) => kind === entry)
    expect(theirs.map(({ by: name, at, data }) => ({ name, at, desk: data.desk }))).toEqual([{ name: 'Maren Holt', at: clinic.rig.now, desk: by.desk }])
  })

  it('about the clinic leaves who did it too: a colleague invited, other duty times', () => {
    const clinic = new JoinedClinic()
    const entries = since(clinic, () => {
      clinic.maren.write('invite')
      clinic.maren.write('duty').press('Other duty times').write('mon-fri', '09:00-17:00')
    })
    expect(entries.filter(({ kind }) => kind === 'colleague-invited' || kind === 'duty-changed').map(({ kind, by: name, at }) => ({ kind, name, at }))).toEqual([
      { kind: 'colleague-invited', name: 'Maren Holt', at: clinic.rig.now },
      { kind: 'duty-changed', name: 'Maren Holt', at: clinic.rig.now },
    ])
  })
})
