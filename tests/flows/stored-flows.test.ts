// A flow renamed, a state removed, a question added: small flows of our own in place of shipped ones, and the conversation of
// the earlier flow as it was stored.
import { describe, expect, it } from 'vitest'
import { ask, defineFlow, final, type FlowDefinition } from '#flows/define-flow.ts'
import { flows } from '#flows/registry.ts'
import type { Conversation, Flow, Flows } from '#src/conversation/flow.ts'
import { resume } from '#src/conversation/run-flow.ts'
import { chartId, colleagues, JoinedClinic } from '#tests/support/joined-clinic.ts'

/** Asks for pain, then for control, under words that are there. */
const definition: FlowDefinition = {
  id: 'diary',
  version: 1,
  initial: 'pain',
  safeState: 'control',
  on: { stop: 'closed', close: 'closed' },
  states: {
    pain: ask({ kind: 'pain' }, 'session.pain', { answer: { target: 'control', actions: 'keep' } }),
    control: ask({ kind: 'control' }, 'session.control', { answer: { target: 'reserve', actions: 'keep' } }),
    reserve: ask({ kind: 'reserve' }, 'session.reserve', { answer: { target: 'closed', actions: 'keep' } }),
    closed: final,
  },
}

function withFlow(flow: Flow): Flows {
  return new Map([...flows, [flow.id, flow]])
}

/** On top of the session, at its first set; nobody has asked it yet. */
function stored(top: Partial<Conversation>, flowsNow: Flows): JoinedClinic {
  const before = withFlow(defineFlow({ ...definition, id: top.flow ?? definition.id, version: top.version ?? 1, ...(top.state === 'mood' ? withMood : {}) }))
  const clinic = new JoinedClinic({ flows: before })
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.begin()
  const conversation: Conversation = { flow: 'diary', version: 1, state: 'reserve', data: { pain: 2 }, ...top }
  clinic.rig.store({ ...clinic.chart(), conversations: [...clinic.chart().conversations, conversation] })
  // Asked by the version of then, so that its buttons are on the screen.
  clinic.client.write('help')
  const chart = clinic.chart()
  const shown = clinic.client.messages.find(({ effect }) => effect === chart.prompt?.effect)
  const next = new JoinedClinic({ flows: flowsNow })
  next.rig.now = clinic.rig.now
  next.rig.store(chart)
  old.set(next, shown?.buttons.map(({ data }) => data) ?? [])
  next.readAll()
  return next
}

const withMood = { states: { ...definition.states, mood: ask({ kind: 'yes-no' }, 'consent.agree', { answer: { target: 'closed', actions: 'keep' } }) }, enteredAt: ['mood'] }
/** The buttons that the version of then had shown. */
const old = new WeakMap<JoinedClinic, readonly string[]>()

function topOf(clinic: JoinedClinic): Conversation | undefined {
  return clinic.chart().conversations.at(-1)
}

describe('a flow with another name', () => {
  const renamed = withFlow(defineFlow({ ...definition, id: 'logbook', formerly: ['diary'] }))

  it('goes on with the stored question, whose old button counts, and keeps what was answered', () => {
    const clinic = stored({ state: 'control' }, renamed)
    const steady = old.get(clinic)?.find((data) => data.endsWith(':steady'))
    clinic.client.pressData(String(steady))
    expect(topOf(clinic)).toEqual({ flow: 'logbook', version: 1, state: 'reserve', data: { pain: 2, control: 'steady' } })
    expect(clinic.client.read()).toContain('How many more could you have done')
  })

  it('takes a typed answer, and gives the session below it back', () => {
    const clinic = stored({}, renamed)
    clinic.client.write('3')
    expect(clinic.asks).toBe('session.set')
    expect(clinic.entries('conversation-closed')).toEqual([])
  })

  it('has its states brought on by version as well', () => {
    const moved = withFlow(defineFlow({ ...definition, id: 'logbook', version: 2, formerly: ['notes', 'diary'], migrate: () => 'control' }))
    const clinic = stored({}, moved)
    clinic.client.write('3')
    expect(topOf(clinic)).toEqual({ flow: 'logbook', version: 2, state: 'control', data: { pain: 2 } })
  })

  it('is found by its present name below another conversation, where time closes it', () => {
    const shipped = flows.get('session')
    if (!shipped) throw new Error('no session')
    const training: Flows = new Map([...flows, ['session', { ...shipped, formerly: ['training'] }]])
    const clinic = new JoinedClinic({ flows: training })
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.begin()
    const below = clinic.chart().conversations.map((one) => (one.flow === 'session' ? { ...one, flow: 'training' } : one))
    clinic.rig.store({ ...clinic.chart(), conversations: [...below, { flow: 'symptom', version: 1, state: 'ask', data: {} }] })
    clinic.rig.moveTo('2026-01-06T00:00:00Z')
    expect(clinic.chart().session).toBeNull()
    expect(clinic.chart().conversations.map(({ flow }) => flow)).toEqual(['symptom'])
  })

  it('whose name is in use again is not taken for the one that has the name now', () => {
    const both: Flows = new Map([...withFlow(defineFlow(definition)), ['logbook', defineFlow({ ...definition, id: 'logbook', formerly: ['diary'] })]])
    const clinic = stored({ state: 'control' }, both)
    clinic.client.write('steady')
    expect(topOf(clinic)?.flow).toBe('diary')
  })

  it('leaves a document whose flows have kept their names as it is', () => {
    const clinic = new JoinedClinic({ flows: renamed })
    const before = clinic.chart()
    clinic.rig.submit(chartId, { kind: 'wake' })
    expect(clinic.chart()).toBe(before)
  })
})

describe('a state that is gone', () => {
  const { pain: _, ...rest } = definition.states
  const nearest = defineFlow({
    ...definition,
    version: 2,
    initial: 'control',
    states: rest,
    // The nearest question of each state, and the safe state for all that is not named.
    migrate: (_version, state) => ({ mood: 'reserve', pain: 'control' })[state] ?? null,
  })

  it.each([
    ['mood', 'reserve'],
    ['pain', 'control'],
  ])('leads from "%s" to the nearest question of its own, "%s"', (state, question) => {
    const clinic = stored({ state, data: { pain: 2 } }, withFlow(nearest))
    clinic.client.write('yes')
    expect(topOf(clinic)).toEqual({ flow: 'diary', version: 2, state: question, data: { pain: 2 } })
    expect(clinic.client.read()).not.toBe('')
  })

  it('makes its buttons outdated, whatever they said', () => {
    const clinic = stored({ state: 'mood' }, withFlow(nearest))
    const [first] = old.get(clinic) ?? []
    clinic.client.pressData(String(first))
    expect(topOf(clinic)).toMatchObject({ state: 'reserve', data: { pain: 2 } })
    expect(clinic.client.read()).toContain('That button belongs to an earlier question.')
  })

  it('leads to the safe state where the flow names no other', () => {
    const conversation: Conversation = { flow: 'diary', version: 1, state: 'weather', data: { pain: 2 } }
    expect(resume(nearest, conversation)).toEqual({ conversation: { ...conversation, version: 2, state: 'control' }, isMoved: true })
  })

  it('does not keep a sign of an emergency from being heard', () => {
    const clinic = stored({ state: 'mood' }, withFlow(nearest))
    clinic.client.write('half my face is drooping')
    expect(clinic.chart().lock?.level).toBe('emergency')
  })
})

describe('a question that has been added before the stored one', () => {
  const added = defineFlow({
    ...definition,
    version: 2,
    states: {
      ...definition.states,
      side: ask({ kind: 'yes-no' }, 'consent.zone', { answer: { target: 'reserve', actions: 'keep' } }),
      control: ask({ kind: 'control' }, 'session.control', { answer: { target: 'side', actions: 'keep' } }),
    },
    migrate: (_version, state) => (state === 'reserve' ? 'side' : state),
  })

  it('is asked first, and then the stored one; what was typed meanwhile answers neither', () => {
    const clinic = stored({ data: { pain: 2, control: 'steady' } }, withFlow(added))
    clinic.client.write('3')
    expect(topOf(clinic)).toMatchObject({ version: 2, state: 'side', data: { pain: 2, control: 'steady' } })
    clinic.client.press('Yes')
    expect(topOf(clinic)).toMatchObject({ state: 'reserve', data: { pain: 2, control: 'steady', side: true } })
  })

  it('is not asked before it comes, where the stored question lies ahead of it', () => {
    const clinic = stored({ state: 'control' }, withFlow(added))
    clinic.client.write('steady')
    expect(topOf(clinic)).toMatchObject({ version: 2, state: 'side', data: { pain: 2, control: 'steady' } })
  })
})

describe('what a flow has gathered', () => {
  const asked = defineFlow({ ...definition, version: 2, migrate: (_version, state) => state, migrateData: (version, { pain, ...data }) => ({ ...data, [`pain-of-${version}`]: pain ?? null }) })

  it('is brought to the names of a later version, once', () => {
    const before: Conversation = { flow: 'diary', version: 1, state: 'reserve', data: { pain: 2, control: 'shaky' } }
    const { conversation } = resume(asked, before)
    expect(conversation).toEqual({ flow: 'diary', version: 2, state: 'reserve', data: { control: 'shaky', 'pain-of-1': 2 } })
    expect(resume(asked, conversation).conversation).toBe(conversation)
  })
})

describe('a therapist whose question is of another version', () => {
  const enrolment = flows.get('enrolment')
  if (!enrolment) throw new Error('no enrolment')
  const later: Flow = { ...enrolment, version: 9, migrate: (_version, state) => (state === 'age' ? 'blood-pressure' : null), migrateData: (_version, data) => data }

  function enrolling(state: string): JoinedClinic {
    const clinic = new JoinedClinic({ flows: new Map([...flows, ['enrolment', later]]) })
    clinic.maren.write('enrol', 'Noor Lindqvist', 'Europe/Dublin', '112', '116 117').skip()
    const desk = clinic.rig.desk(colleagues.maren.desk)
    clinic.rig.store({ ...desk, conversations: desk.conversations.map((one) => ({ ...one, version: 2, state })) })
    return clinic
  }

  function asksAt(clinic: JoinedClinic): unknown {
    const top = clinic.rig.desk(colleagues.maren.desk).conversations.at(-1)
    return [top?.state, top?.data.name, top?.data.age]
  }

  it('is asked what it has become; the answer to what it was is not read as an answer to that', () => {
    const clinic = enrolling('age')
    clinic.maren.write('120/80')
    expect(asksAt(clinic)).toEqual(['blood-pressure', 'Noor Lindqvist', undefined])
    clinic.maren.write('120/80')
    expect(asksAt(clinic)).toEqual(['conditions', 'Noor Lindqvist', undefined])
  })

  it('comes to the review, with what is answered, where the question is gone and nothing is nearer', () => {
    const clinic = enrolling('shoe-size')
    clinic.maren.write('42')
    expect(asksAt(clinic)).toEqual(['review', 'Noor Lindqvist', undefined])
    expect(clinic.maren.read()).toContain('Noor Lindqvist')
  })

  it('cannot enrol with questions left open, and reads why', () => {
    const clinic = enrolling('shoe-size')
    clinic.maren.write('42').skip().press('Enrol')
    expect(asksAt(clinic)).toEqual(['review', 'Noor Lindqvist', undefined])
    expect(clinic.maren.read()).toContain('Some questions were not asked.')
    expect(clinic.entries('enrolled').length).toBe(1)
  })

  it('can ask for help, and stop', () => {
    const clinic = enrolling('shoe-size')
    clinic.maren.write('help')
    expect(asksAt(clinic)).toEqual(['review', 'Noor Lindqvist', undefined])
    clinic.maren.write('stop')
    expect(asksAt(clinic)).toEqual([undefined, undefined, undefined])
  })

  it('whose flow is gone reads so, and the words are taken as if nothing had been open', () => {
    const clinic = enrolling('age')
    const desk = clinic.rig.desk(colleagues.maren.desk)
    clinic.rig.store({ ...desk, conversations: desk.conversations.map((one) => ({ ...one, flow: 'inventory' })) })
    clinic.maren.write('enrol')
    expect(asksAt(clinic)).toEqual(['name', undefined, undefined])
    expect(clinic.maren.read()).toContain('That question is closed')
  })
})
