// Invented clients behave like their kind, alike for the same seed, and leave scripts that anybody can play again.
import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { answersSchema } from '#src/commands/rehearse/answers-schema.ts'
import { clientKinds, type ClientKind } from '#src/commands/rehearse/client-kinds.ts'
import type { InventedRehearsal } from '#src/commands/rehearse/rehearse-plan.ts'
import { weekdays } from '#src/domain/plan.ts'
import { play } from '#tests/support/rehearsed.ts'
import { allDirectionsPlan, extensionPlan } from '#tests/support/sample-chain.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { rehearseKind } from '../reports/rehearsed-pictures.ts'
import { runHere } from './run-here.ts'

const seeds = [1, 2, 3, 4]

function several(kind: ClientKind): readonly InventedRehearsal[] {
  return seeds.map((seed) => rehearseKind(extensionPlan, kind, seed))
}

const rehearsals = Object.fromEntries(clientKinds.map((kind) => [kind, several(kind)])) as Record<ClientKind, readonly InventedRehearsal[]>

function decisionsOf(kind: ClientKind, wanted: string): number {
  return rehearsals[kind].flatMap(({ sessions }) => sessions.flatMap(({ decisions }) => decisions)).filter(({ decision }) => decision === wanted).length
}

function daysOf(kind: ClientKind): readonly number[] {
  return rehearsals[kind].flatMap(({ sessions }) => sessions.map(({ day }) => day))
}

function isScheduled(day: number): boolean {
  return extensionPlan.schedule.days.includes(weekdays[day % 7] ?? 'mon')
}

describe.each(clientKinds)('an invented client, %s,', (kind) => {
  it('leaves a script by the contract, which played again gives the same sessions', () => {
    for (const { answers, sessions } of rehearsals[kind]) {
      const script = answersSchema.parse(JSON.parse(JSON.stringify(answers)))
      expect(play(extensionPlan, script)).toEqual(sessions)
    }
  })

  it('does so with every direction of a plan', () => {
    const { answers, sessions } = rehearseKind(allDirectionsPlan, kind, 5, 8)
    const asked = new Set(sessions.flatMap((session) => session.sets.map(({ direction }) => direction)))
    expect(play(allDirectionsPlan, answersSchema.parse(JSON.parse(JSON.stringify(answers))))).toEqual(sessions)
    expect([...asked].toSorted()).toEqual(allDirectionsPlan.ladders.map(({ direction }) => direction).toSorted())
  })

  it('is the same for the same seed, and another for another', () => {
    expect(rehearseKind(extensionPlan, kind, 1)).toEqual(rehearsals[kind][0])
    expect(rehearsals[kind][1]?.answers).not.toEqual(rehearsals[kind][0]?.answers)
  })
})

describe('of the kinds,', () => {
  it('the steady one climbs and is hardly ever eased', () => {
    expect(decisionsOf('steady', 'progress')).toBeGreaterThan(3 * decisionsOf('steady', 'maintain'))
    expect(decisionsOf('steady', 'ease') + decisionsOf('steady', 'step back') + decisionsOf('steady', 'stop')).toBeLessThanOrEqual(seeds.length)
  })

  it('the sore one is eased where the dose has outrun them', () => {
    expect(decisionsOf('sore', 'ease')).toBeGreaterThan(2 * seeds.length)
    expect(decisionsOf('sore', 'progress')).toBeLessThan(decisionsOf('steady', 'progress'))
  })

  it('the forgetful one misses days and mornings, and once goes away', () => {
    const mornings = rehearsals.forgetful.flatMap(({ answers }) => answers.sessions).filter(({ morning }) => morning == null).length
    expect(daysOf('forgetful').length).toBeLessThan(0.75 * daysOf('steady').length)
    expect(mornings).toBeGreaterThan(0.2 * daysOf('forgetful').length)
    expect(Math.max(...rehearsals.forgetful.flatMap(({ sessions }) => sessions.slice(1).map(({ day }, index) => day - (sessions[index]?.day ?? 0))))).toBeGreaterThan(7)
  })

  it('the overeager one trains on days that are not planned and tells more reserve than there is', () => {
    const reserves = (kind: ClientKind) => rehearsals[kind].flatMap(({ sessions }) => sessions.flatMap(({ sets }) => sets.flatMap(({ answer }) => answer?.reserve ?? [])))
    const mean = (numbers: readonly number[]): number => numbers.reduce((sum, one) => sum + one, 0) / numbers.length
    expect(daysOf('overeager').filter((day) => !isScheduled(day)).length).toBeGreaterThan(10 * seeds.length)
    expect(clientKinds.filter((kind) => kind !== 'overeager').flatMap((kind) => daysOf(kind).filter((day) => !isScheduled(day)))).toEqual([])
    expect(mean(reserves('overeager'))).toBeGreaterThan(mean(reserves('sore')))
  })

  it('the flaring one has more pain for some days, which goes away again', () => {
    for (const { answers } of rehearsals.flaring) {
      const pains = answers.sessions.map(({ before }) => before?.pain ?? 0)
      const worst = pains.indexOf(Math.max(...pains))
      expect(pains[worst]).toBeGreaterThanOrEqual(extensionPlan.usualPain + 3)
      expect(Math.max(...pains.slice(-4))).toBeLessThanOrEqual(extensionPlan.usualPain + 2)
      expect(Math.max(...pains.slice(0, 4))).toBeLessThanOrEqual(extensionPlan.usualPain + 2)
    }
  })

  it('the one with a symptom tells it once, is locked, is cleared and trains on', () => {
    for (const { answers, sessions } of rehearsals.symptom) {
      const told = answers.sessions.filter(({ before }) => before?.says != null)
      const locked = sessions.filter((session) => session.locked)
      expect([told.length, locked.length, answers.sessions.filter(({ clear }) => clear === true).length, sessions.at(-1)?.locked]).toEqual([1, 2, 1, false])
    }
  })
})

describe('rehearse --virtual', () => {
  const rehearse = ['rehearse', '--plan', 'content/plans/extension.yaml']

  it('takes the kinds by turns and prints a line for each, with the client and the answers', async () => {
    const { status, printed, complaints } = await runHere([...rehearse, '--virtual', '7', '--weeks', '1', '--json'])
    const lines = printed.map((line) => JSON.parse(line) as { client: unknown; answers: unknown; sessions: unknown[] })
    expect({ status, complaints, clients: lines.map(({ client }) => client) }).toEqual({
      status: 0,
      complaints: [],
      clients: [...clientKinds, 'steady'].map((kind, index) => ({ number: index + 1, kind })),
    })
    expect(lines.map((line) => Object.keys(line))).toEqual(lines.map(() => ['client', 'answers', 'sessions']))
  })

  it('with a kind invents only such clients', async () => {
    const { printed } = await runHere([...rehearse, '--virtual', '3', '--weeks', '1', '--kind', 'sore'])
    expect(printed.map((line) => (JSON.parse(line) as { client: unknown }).client)).toEqual([1, 2, 3].map((number) => ({ number, kind: 'sore' })))
  })

  it('draws the first client as SVG or PNG', async () => {
    const folder = await makeTemporaryFolder()
    const [svg, png] = ['plan.svg', 'plan.png'].map((name) => join(folder, name)) as [string, string]
    for (const path of [svg, png]) await runHere([...rehearse, '--virtual', '2', '--weeks', '2', '--plot', path])
    expect(await readFile(svg, 'utf8')).toMatch(/^<svg [^>]*role="img".*with an invented client \(steady\).*<\/svg>$/s)
    expect((await readFile(png)).subarray(0, 4)).toEqual(Buffer.from([0x89, 0x50, 0x4e, 0x47]))
  })

  it.each([
    [['--virtual', '1', '--plot', 'plan.pdf'], '--plot plan.pdf: the file has to end in .svg or .png.'],
    [['--virtual', '0', '--plot', 'plan.svg'], '--plot needs a client to show: use --virtual 1.'],
    [['--answers', 'none.json', '--kind', 'sore'], '--kind is for invented clients: use it with --virtual N.'],
    [['--virtual', '1', '--weeks', '1', '--plot', '/nowhere/at/all.svg'], '--plot /nowhere/at/all.svg: it cannot be written (ENOENT). Name a folder that is there.'],
  ])('refuses %j', async (args, complaint) => {
    const { status, complaints } = await runHere([...rehearse, ...args])
    expect({ status, complaints }).toEqual({ status: 2, complaints: [complaint] })
  })

  it('draws a script, and refuses to draw several', async () => {
    const folder = await makeTemporaryFolder()
    const [one, two, picture] = ['one.json', 'two.jsonl', 'plan.svg'].map((name) => join(folder, name)) as [string, string, string]
    await writeFile(one, '{"sessions":[{"day":0,"before":{"pain":1}}]}')
    await writeFile(two, '{"sessions":[]}\n{"sessions":[]}\n')
    const drawing = await runHere([...rehearse, '--answers', one, '--plot', picture])
    const refusing = await runHere([...rehearse, '--answers', two, '--plot', picture])
    expect([drawing.status, await readFile(picture, 'utf8')]).toEqual([0, expect.stringContaining('with scripted answers')])
    expect([refusing.status, refusing.complaints]).toEqual([2, [`--plot shows one script, and ${two} holds 2: give a file with one.`]])
  })
})
