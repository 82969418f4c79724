// Conversations as an older or a newer version of the product left them.
import { describe, expect, it } from 'vitest'
import { flows } from '#flows/registry.ts'
import type { Chart } from '#src/chart/chart.ts'
import type { Conversation, Flow, Flows } from '#src/conversation/flow.ts'
import { resume } from '#src/conversation/run-flow.ts'
import { chartId, JoinedClinic } from '#tests/support/joined-clinic.ts'

function flowNamed(id: string): Flow {
  const flow = flows.get(id)
  if (!flow) throw new Error(`no flow ${id}`)
  return flow
}

/** The session's flow as a later version might be: what was asked as `left` is asked as `reserve`, `mood` is gone. */
const laterSession: Flow = { ...flowNamed('session'), version: 3, migrate: (_version, state) => (state === 'left' ? 'reserve' : null) }
const later: Flows = new Map([...flows, ['session', laterSession]])

function stored(state: string, version = 2): Conversation {
  return { flow: 'session', version, state, data: { kept: 'answer' } }
}

describe('a stored conversation', () => {
  it.each([
    ['of this version stays where it is', flowNamed('session'), stored('pain'), stored('pain'), false],
    ['of this version in a state that is gone goes to the safe state', flowNamed('session'), stored('mood'), stored('choosing'), true],
    ['of an older version is migrated', laterSession, stored('left'), stored('reserve', 3), true],
    ['of an older version whose state is gone goes to the safe state', laterSession, stored('mood'), stored('choosing', 3), true],
    ['of an older version is never left in a state that only happens to have the same name', laterSession, stored('pain'), stored('choosing', 3), true],
    ['of the first version stays where it is', flowNamed('session'), stored('reserve', 1), stored('reserve'), false],
    ['of the weekly question for the average is asked for the pain now', flowNamed('weekly'), { flow: 'weekly', version: 1, state: 'average', data: {} }, { flow: 'weekly', version: 2, state: 'now', data: {} }, true],
    ['of a newer version goes to the safe state', flowNamed('session'), stored('pain', 3), stored('choosing'), true],
    ['in a final state goes to the safe state', flowNamed('session'), stored('closed'), stored('choosing'), true],
  ])('%s', (_title, flow, before, conversation, isMoved) => {
    expect(resume(flow, before)).toEqual({ conversation, isMoved })
  })
})

/** In the second set, with the stored conversation replaced. */
function inSecondSet(top: Partial<Conversation>, flowsThen: Flows = flows): JoinedClinic {
  const clinic = new JoinedClinic({ flows: flowsThen })
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.begin().doSet().client.press('Done').write('2')
  const chart = clinic.chart()
  const conversations = chart.conversations.map((one) => ({ ...one, ...top }))
  clinic.rig.store({ ...chart, conversations })
  clinic.client.skip()
  return clinic
}

function answersOf(chart: Chart): unknown {
  return { sets: chart.session?.sets.map((set) => set.report), underWay: chart.session?.underWay }
}

const answersThen = {
  sets: [{ pain: 1, control: 'steady', reserve: 3, finished: true }],
  underWay: { isFinished: true, pain: 2, control: null, reserve: null, better: {} },
}

describe('a client whose question is of a state that is gone', () => {
  it.each(['steady', 'no', 'ok'])('and who writes "%s" is asked the nearest safe question, which that does not answer', (text) => {
    const clinic = inSecondSet({ state: 'mood' })
    clinic.client.write(text)
    expect(clinic.asks).toBe('session.control')
    expect(answersOf(clinic.chart())).toEqual(answersThen)
    expect(clinic.client.read()).toContain('Did your chin, shoulders or body move to help?')
  })

  it('and who presses a button of it reads that it is outdated, and is asked anew', () => {
    const clinic = inSecondSet({ state: 'mood' })
    clinic.client.press('No')
    expect(clinic.asks).toBe('session.control')
    expect(answersOf(clinic.chart())).toEqual(answersThen)
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Did your chin, shoulders or body move to help?
      [No] [A little] [Yes]
      ---
      That button belongs to an earlier question. Nothing was changed. Please answer the newest one."
    `)
  })

  it('and who writes of an emergency is heard first', () => {
    const clinic = inSecondSet({ state: 'mood' })
    clinic.client.write('half my face is drooping')
    expect(clinic.chart().lock?.level).toBe('emergency')
    expect(clinic.asks).toBe('called.called')
  })

  it('and who stops has stopped, with what was answered kept', () => {
    const clinic = inSecondSet({ state: 'mood' })
    clinic.client.write('stop').press('None of these')
    expect(clinic.chart().session).toBeNull()
    expect(clinic.chart().pending?.ladders[0]?.sets.map((set) => set.report)).toEqual([answersThen.sets[0], { pain: 2, control: null, reserve: null, finished: true }, null])
  })

  it('still has the session closed at midnight', () => {
    const clinic = inSecondSet({ state: 'mood' })
    const timers = clinic.chart().timers.filter(({ kind }) => kind === 'session-end')
    clinic.rig.store({ ...clinic.chart(), timers })
    clinic.rig.moveTo('2026-01-06T00:00:00Z')
    expect(clinic.chart().session).toBeNull()
    expect(clinic.chart().pending?.on).toBe('2026-01-05')
  })
})

describe('a client whose question is of an older version', () => {
  it('goes on with the question that it has become, asked anew', () => {
    const clinic = inSecondSet({ version: 2, state: 'left' }, later)
    clinic.client.write('3')
    expect(clinic.asks).toBe('session.reserve')
    expect(clinic.client.read()).toContain('How many more could you have done')
    expect(answersOf(clinic.chart())).toEqual(answersThen)
  })
})

describe('a client whose conversation is of a flow that is gone', () => {
  it('reads that the question is closed, and keeps what was answered in the record', () => {
    const clinic = inSecondSet({ flow: 'stretching', data: { mood: 'fine' } })
    clinic.client.write('fine')
    expect(clinic.client.read()).toBe('I have changed since I asked you that. That question is closed, and what you told me is kept.')
    expect(clinic.entries('conversation-closed').map((entry) => entry.data)).toEqual([
      { flow: 'stretching', version: 2, state: 'control', data: { mood: 'fine' } },
    ])
    expect(answersOf(clinic.chart())).toEqual(answersThen)
  })

  it('has the session closed at midnight, and is reminded again', () => {
    const clinic = inSecondSet({ flow: 'stretching' })
    clinic.rig.moveTo('2026-01-07T18:00:00Z')
    expect(clinic.chart().session).toBeNull()
    expect(clinic.asks).toBe('session.ready')
  })

  it('comes back to the question below it', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.begin()
    const gone: Conversation = { flow: 'stretching', version: 1, state: 'mood', data: {} }
    clinic.rig.store({ ...clinic.chart(), conversations: [...clinic.chart().conversations, gone] })
    clinic.client.skip().write('fine')
    expect(clinic.asks).toBe('session.set')
    expect(clinic.client.read()).toContain('That question is closed')
    expect(clinic.rig.chart(chartId).conversations.map(({ flow }) => flow)).toEqual(['session'])
  })
})
