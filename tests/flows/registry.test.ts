import { readdirSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { flows } from '#flows/registry.ts'
import { clientParty } from '#src/chart/client/client-party.ts'
import { deskParty } from '#src/chart/desk/desk-party.ts'
import { checkFlow, wordingKeysOf } from '#src/conversation/check-flow.ts'
import { metaOf } from '#src/conversation/run-flow.ts'
import { content } from '#tests/support/sample-chain.ts'

const notFlows = ['define-flow.ts', 'guards.ts', 'registry.ts']
const all = [...flows.values()]
const deskFlows = ['answering', 'clearing', 'disability', 'duty', 'enrolment', 'measuring', 'placing', 'settling-in']

describe('the registry of flows', () => {
  it('holds exactly the flows of the folder, each under its own name', () => {
    const files = readdirSync('flows').filter((file) => !notFlows.includes(file))
    expect([...flows.keys()].map((id) => `${id}.ts`).toSorted()).toEqual(files.toSorted())
    expect(all.map((flow) => flow.id)).toEqual([...flows.keys()])
  })
})

describe('the former names of flows', () => {
  it('are nobody’s name today, and each was one flow’s', () => {
    const formerly = all.flatMap((flow) => flow.formerly)
    expect(formerly.filter((name) => flows.has(name))).toEqual([])
    expect(formerly.length).toBe(new Set(formerly).size)
  })
})

describe.each(all)('the flow $id', (flow) => {
  const definition = flow.machine.config as { readonly states: Readonly<Record<string, Readonly<Record<string, unknown>>>> }

  it('has no state that is unreachable, cannot be left or does nothing', () => {
    expect(checkFlow(flow)).toEqual([])
  })

  it('has words in every language for all it asks', () => {
    const missing = [...content.languages.values()].flatMap(({ words }) => wordingKeysOf(flow).filter((key) => !words.has(key)))
    expect(missing).toEqual([])
  })

  it('has a safe state that asks or decides', () => {
    expect(metaOf(flow, flow.safeState)).not.toBeNull()
  })

  it('leaves time and other actors to the document', () => {
    const keys = Object.values(definition.states).flatMap((state) => Object.keys(state))
    expect(keys.filter((key) => !['meta', 'on', 'type'].includes(key))).toEqual([])
  })

  it('names only actions that somebody carries out', () => {
    const named = actionsIn(definition)
    const known = Object.keys((deskFlows.includes(flow.id) ? deskParty : clientParty).actions)
    expect(named.filter((name) => name !== 'keep' && !known.includes(name))).toEqual([])
  })
})

describe('the actions of a party', () => {
  it.each([
    ['a client', Object.keys(clientParty.actions), all.filter((flow) => !deskFlows.includes(flow.id))],
    ['a therapist', Object.keys(deskParty.actions), all.filter((flow) => deskFlows.includes(flow.id))],
  ])('are all named by some flow of %s', (_name, known, own) => {
    const named = own.flatMap((flow) => actionsIn(flow.machine.config))
    expect(known.filter((name) => !named.includes(name))).toEqual([])
  })
})

/** Every name under `actions`, wherever it stands in a definition. */
function actionsIn(node: unknown): readonly string[] {
  if (Array.isArray(node)) return node.flatMap(actionsIn)
  if (node === null || typeof node !== 'object') return []
  return Object.entries(node).flatMap(([key, value]) => (key === 'actions' ? namesOf(value) : actionsIn(value)))
}

function namesOf(actions: unknown): readonly string[] {
  return [actions].flat().map((action) => (typeof action === 'string' ? action : String((action as { type: unknown }).type)))
}
