// backup, restore and migrate as somebody at a shell uses them, with DATA_DIR and keys.
import { mkdir, readFile, readdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openStore } from '#src/app.ts'
import { presentPlace } from '#src/commands/copies/places.ts'
import { readConfig } from '#src/config.ts'
import { allOf } from '#tests/contracts/archive-contract.ts'
import { writeKey } from '#tests/support/data-keys.ts'
import { findReadable, readFolder } from '#tests/support/folder-bytes.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { runHere } from '../run-here.ts'

type Environment = Readonly<Record<string, string>>

interface Clinic {
  readonly base: string
  readonly environment: Environment
}

async function makeClinic(key = ''): Promise<Clinic> {
  const base = await makeTemporaryFolder()
  const environment = { DATA_DIR: join(base, 'data'), DATA_KEY: key }
  await run(environment, 'enrol', 'content/plans/extension.yaml')
  await writeFile(join(base, 'data', 'triage-signature.yaml'), 'name: Maren Holt\n')
  return { base, environment }
}

/** What it printed; anything but exit 0 is a mistake of the test. */
async function run(environment: Environment, ...args: readonly string[]): Promise<string> {
  const { status, printed, complaints } = await runHere(args, environment)
  expect({ status, complaints }).toEqual({ status: 0, complaints: [] })
  return printed.join('\n')
}

const documentsOf = (environment: Environment) => allOf(presentPlace(readConfig(environment)))

describe('backup', () => {
  it('beside a running start leaves the folder as it was, and says what it holds', async () => {
    const { base, environment } = await makeClinic()
    const store = openStore(readConfig(environment))
    await store.open()
    const before = await readFolder(join(base, 'data'))
    const said = await run(environment, 'backup', '--to', join(base, 'one'))
    const json = JSON.parse(await run(environment, 'backup', '--to', join(base, 'two'), '--json')) as object
    expect(await readFolder(join(base, 'data'))).toEqual(before)
    await store.close()

    expect(said).toMatch(/one holds 2 documents with 1 entries, as of 20\S+Z\. It is not encrypted: keep it as safe as the records themselves\.$/)
    expect(json).toMatchObject({ file: join(base, 'two'), documents: 2, entries: 1, files: 1, keyId: null })
    expect((await readdir(base)).toSorted()).toEqual(['data', 'one', 'two'])
  })

  it.each<readonly [string, (base: string) => string, RegExp]>([
    ['that stands', (base) => join(base, 'standing'), /standing stands already\. Name another file, or add --replace\.$/],
    ['in no folder', (base) => join(base, 'nowhere', 'file'), /nowhere is no folder\. Make it first, or name another\.$/],
    ['that is a folder', (base) => join(base, 'data'), /data is a folder\. Name a file in it\.$/],
  ])('to a file %s exits with 2 and writes nothing', async (_title, pathIn, says) => {
    const { base, environment } = await makeClinic()
    await writeFile(join(base, 'standing'), 'another')
    const before = await readFolder(base)
    const { status, complaints } = await runHere(['backup', '--to', pathIn(base)], environment)
    expect({ status, complaints }).toEqual({ status: 2, complaints: [expect.stringMatching(says)] })
    expect(await readFolder(base)).toEqual(before)
  })

  it('takes the place of a file that stands where it is told to', async () => {
    const { base, environment } = await makeClinic()
    await writeFile(join(base, 'standing'), 'another')
    await run(environment, 'backup', '--to', join(base, 'standing'), '--replace')
    expect(await run(environment, 'restore', '--from', join(base, 'standing'), '--check')).toContain('is whole: 2 documents as of')
  })
})

describe('restore', () => {
  it.each([['', 'not encrypted'], [writeKey(1), 'encrypted']])('brings back everything into an empty folder (key “%s”: %s), with the signature', async (key) => {
    const { base, environment } = await makeClinic(key)
    await run(environment, 'backup', '--to', join(base, 'file'))
    const elsewhere = { ...environment, DATA_DIR: join(base, 'elsewhere') }
    const said = await run(elsewhere, 'restore', '--from', join(base, 'file'))

    expect(said.split('\n')[0]).toMatch(/^2 documents as of 20\S+Z, with 1 entries, are in the store and were compared with the backup\.$/)
    expect(said).toContain('What happened after that instant is not in it')
    expect(await documentsOf(elsewhere)).toEqual(await documentsOf(environment))
    expect(await readFile(join(base, 'elsewhere', 'triage-signature.yaml'), 'utf8')).toBe('name: Maren Holt\n')
    expect((await readdir(join(base, 'elsewhere'))).toSorted()).toEqual(['documents', 'triage-signature.yaml', 'volumes'])
    if (key !== '') expect(await findReadable(join(base, 'elsewhere'), ['Orla', 'Tiernan'])).toEqual([])
  })

  it('leaves a signature and files that are not ours as they stand, and says so of the signature', async () => {
    const { base, environment } = await makeClinic()
    await run(environment, 'backup', '--to', join(base, 'file'))
    await mkdir(join(base, 'elsewhere'))
    for (const name of ['triage-signature.yaml', 'notes.txt']) await writeFile(join(base, 'elsewhere', name), 'mine')
    const said = await run({ DATA_DIR: join(base, 'elsewhere') }, 'restore', '--from', join(base, 'file'))
    expect(said).toContain('triage-signature.yaml stood there already and was left as it is.')
    for (const name of ['triage-signature.yaml', 'notes.txt']) expect(await readFile(join(base, 'elsewhere', name), 'utf8')).toBe('mine')
  })

  it('only checks where it is told to, and puts nothing anywhere', async () => {
    const { base, environment } = await makeClinic()
    await run(environment, 'backup', '--to', join(base, 'file'))
    const elsewhere = { DATA_DIR: join(base, 'elsewhere') }
    expect(JSON.parse(await run(elsewhere, 'restore', '--from', join(base, 'file'), '--check', '--json'))).toMatchObject({ documents: 2, isPutIn: false })
    expect((await readdir(base)).toSorted()).toEqual(['data', 'file'])
  })

  it('refuses a damaged backup before anything is made', async () => {
    const { base, environment } = await makeClinic()
    await run(environment, 'backup', '--to', join(base, 'file'))
    const bytes = await readFile(join(base, 'file'))
    await writeFile(join(base, 'file'), bytes.subarray(0, -20))
    const { status, complaints } = await runHere(['restore', '--from', join(base, 'file')], { DATA_DIR: join(base, 'elsewhere') })
    expect({ status, complaints }).toEqual({ status: 2, complaints: [expect.stringMatching(/file is no whole backup: it is cut.*take another one\.$/)] })
    expect((await readdir(base)).toSorted()).toEqual(['data', 'file'])
  })

  it('completes in a folder that an earlier try has left in part', async () => {
    const { base, environment } = await makeClinic()
    await run(environment, 'backup', '--to', join(base, 'file'))
    await writeFile(join(base, 'data', 'filling.json'), '{"format":1}\n')
    await run(environment, 'restore', '--from', join(base, 'file'), '--json')
    expect((await documentsOf(environment)).length).toBe(2)
    expect(await run(environment, 'status')).toContain('Open alerts: 0')
  })
})

describe('migrate', () => {
  it('brings everything into another folder, with the signature, and leaves the first as it was', async () => {
    const { base, environment } = await makeClinic(writeKey(1))
    const before = await readFolder(join(base, 'data'))
    const said = await run(environment, 'migrate', '--to', `lowdb:${join(base, 'other')}`)
    const other = { ...environment, DATA_DIR: join(base, 'other') }

    expect(said).toContain('2 documents with 1 entries lie in lowdb:')
    expect(said).toContain(`Start with DATA_DIR=${join(base, 'other')} from now on, and never start the old store again`)
    expect(await readFolder(join(base, 'data'))).toEqual(before)
    expect(await documentsOf(other)).toEqual(await documentsOf(environment))
    expect(await readFile(join(base, 'other', 'triage-signature.yaml'), 'utf8')).toBe('name: Maren Holt\n')
  })

  it('changes the key, from none to one and to none again', async () => {
    const { base, environment } = await makeClinic()
    const documents = await documentsOf(environment)
    const said = await run({ ...environment, DATA_KEY_NEXT: writeKey(1) }, 'migrate', '--rekey')
    const keyed = { ...environment, DATA_KEY: writeKey(1) }
    expect(said).toMatch(/files were sealed anew\. They are encrypted with key [0-9a-f]{16}: put it into DATA_KEY and clear DATA_KEY_NEXT\./)
    expect(await documentsOf(keyed)).toEqual(documents)
    expect(await findReadable(join(base, 'data', 'documents'), ['Orla', 'Tiernan'])).toEqual([])
    await run({ ...keyed, DATA_KEY_NEXT: 'none' }, 'migrate', '--rekey')
    expect(await documentsOf(environment)).toEqual(documents)
  })

  it.each<readonly [readonly string[], Environment, RegExp]>([
    [[], {}, /^Nothing says where to\. Name a store with --to, or change the key with --rekey\.$/],
    [['--to', 'somewhere'], {}, /^--to names no store\. Write lowdb:FOLDER, or postgres with TARGET_DATABASE_URL set\.$/],
    [['--to', 'postgres'], {}, /^TARGET_DATABASE_URL is empty\. Set it to the address of an empty database\.$/],
    [['--to', 'postgres'], { TARGET_DATABASE_URL: 'my database, secret' }, /^TARGET_DATABASE_URL must be an address such as postgres:/],
    [['--to', 'postgres'], { TARGET_DATABASE_URL: 'postgres://127.0.0.1:1/none' }, /^The database cannot be used \(ECONNREFUSED\)/],
    [['--to', 'lowdb:x', '--rekey'], {}, /^--to and --rekey are two steps\. Do one after the other\.$/],
    [['--rekey'], {}, /^DATA_KEY_NEXT is empty\. Set it to the new key, or to none/],
  ])('%j with %j exits with 2 and one line, and changes nothing', async (args, more, says) => {
    const { base, environment } = await makeClinic()
    const before = await readFolder(base)
    const { status, printed, complaints } = await runHere(['migrate', ...args], { ...environment, ...more })
    expect({ status, printed, complaints }).toEqual({ status: 2, printed: [], complaints: [expect.stringMatching(says)] })
    expect(complaints.join()).not.toContain('secret')
    expect(await readFolder(base)).toEqual(before)
  })

  it('refuses a folder in which documents stand, its own among them', async () => {
    const { base, environment } = await makeClinic()
    const other = await makeClinic()
    for (const folder of [join(other.base, 'data'), join(base, 'data')]) {
      const { status, complaints } = await runHere(['migrate', '--to', `lowdb:${folder}`], environment)
      expect({ status, complaints }).toEqual({ status: 2, complaints: [expect.stringMatching(/holds documents already|is in use by process/)] })
    }
  })
})
