// Every command that opens a store, on every store that cannot be used: exit 2, what and how to mend, nothing changed.
import { cp, mkdtemp, readFile, readdir, rm, truncate, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest'
import { openStore } from '#src/app.ts'
import { readConfig } from '#src/config.ts'
import { writeKey } from '#tests/support/data-keys.ts'
import { readFolder } from '#tests/support/folder-bytes.ts'
import { token } from '#tests/support/telegram-api.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { runHere } from './run-here.ts'

const plan = 'content/plans/extension.yaml'

interface Command {
  readonly args: (files: Files) => readonly string[]
  readonly environment?: Readonly<Record<string, string>>
}

interface Files {
  /** A whole backup in the state's own key. */
  readonly backup: string
  /** Where nothing is. */
  readonly free: string
}

const commands = {
  start: { args: () => ['start'], environment: { PORT: '0' } },
  'start over Telegram': { args: () => ['start'], environment: { TELEGRAM_BOT_TOKEN: token } },
  enrol: { args: () => ['enrol', plan] },
  'enrol --instead-of': { args: () => ['enrol', plan, '--instead-of', 'Orla Tiernan', '--because', 'A new test.'] },
  'close-desk': { args: () => ['close-desk', 'Maren Holt', '--hand-over-to', 'Saoirse Bly', '--because', 'Has left.'] },
  status: { args: () => ['status'] },
  backup: { args: ({ free }) => ['backup', '--to', free] },
  restore: { args: ({ backup }) => ['restore', '--from', backup] },
  'migrate --to': { args: ({ free }) => ['migrate', '--to', `lowdb:${free}`] },
  'migrate --rekey': { args: () => ['migrate', '--rekey'], environment: { DATA_KEY_NEXT: writeKey(9) } },
} satisfies Readonly<Record<string, Command>>
type CommandName = keyof typeof commands
const names = Object.keys(commands) as readonly CommandName[]

interface State {
  readonly make: (folder: string) => Promise<void>
  readonly says: RegExp
  /** With which key the clinic was made, and which is in the environment. */
  readonly keys?: readonly [made: string, given: string]
  /** Commands for which the state is no hindrance, with why. */
  readonly fits?: Partial<Record<CommandName, string>>
  readonly saysTo?: Partial<Record<CommandName, RegExp>>
}

const occupied = { restore: /holds documents already.* move what lies there away and keep it\./ }
const [one, two] = [writeKey(1), writeKey(2)]

const states: Readonly<Record<string, State>> = {
  missing: {
    make: (folder) => rm(folder, { recursive: true }),
    says: /^Nothing is stored in .*Set DATA_DIR to the folder of the clinic/,
    fits: {
      start: 'a first start makes the clinic',
      'start over Telegram': 'a first start makes the clinic',
      enrol: 'a plan may be enrolled before the first start',
      'enrol --instead-of': 'it finds no such client in the new clinic',
      'close-desk': 'it finds no therapist in the new clinic',
      restore: 'it is what a restore is for',
    },
  },
  locked: {
    async make(folder) {
      const store = openStore(readConfig({ DATA_DIR: folder }))
      await store.open()
      onTestFinished(() => store.close())
    },
    says: /is in use by process \d+\. Stop that process first/,
    fits: { status: 'it reads beside a running start', backup: 'it copies beside a running start' },
  },
  damaged: {
    make: async (folder) => truncate(await chartFile(folder), 100),
    says: /chart-\S+\.json is damaged: .*restore a backup/,
    saysTo: occupied,
  },
  newer: {
    async make(folder) {
      const file = await chartFile(folder)
      await writeFile(file, (await readFile(file, 'utf8')).replace(/^\{"format":\d+/, '{"format":99'))
    },
    says: /was written by a newer version of this program \(format 99\)\. Install that version/,
    saysTo: occupied,
  },
  'sealed with another key': { make: async () => {}, keys: [one, two], says: /is encrypted with another key .*Set DATA_KEY to that key/, saysTo: occupied },
  'sealed, and no key given': { make: async () => {}, keys: [one, ''], says: /is encrypted \(key .*DATA_KEY is empty\. Set DATA_KEY to that key/, saysTo: occupied },
  'not sealed, and a key given': { make: async () => {}, keys: ['', two], says: /is not encrypted, but DATA_KEY is set\. Leave DATA_KEY empty/, saysTo: occupied },
  'filled only in part': {
    make: (folder) => writeFile(join(folder, 'filling.json'), '{"format":1}\n'),
    says: /holds a copy that was put in only in part .*Run the same "restore" or "migrate" again/,
    fits: { restore: 'it clears away what lies there and begins anew' },
  },
  'half way to another key': {
    make: (folder) => writeFile(join(folder, 'key-change.json'), '{"format":1}\n'),
    says: /The change of the key of .* has not come to its end\. Run "migrate --rekey" again/,
    fits: { 'migrate --rekey': 'it goes on where it stopped' },
  },
}

async function chartFile(folder: string): Promise<string> {
  const [name] = (await readdir(join(folder, 'documents'))).filter((file) => /^chart-.*\.json$/.test(file))
  return join(folder, 'documents', name ?? '')
}

/** By key; made once, since nothing changes them. */
const clinics = new Map<string, { readonly folder: string; readonly backup: string }>()
const bases: string[] = []

beforeAll(async () => {
  for (const key of ['', one, two]) clinics.set(key, await makeClinic(key))
})
afterAll(async () => {
  for (const base of bases) await rm(base, { recursive: true })
})

describe.each(Object.entries(states))('a store that is %s', (_, { make, says, keys = ['', ''], fits = {}, saysTo = {} }) => {
  const [made, given] = keys

  it.each(names.filter((name) => fits[name] === undefined))('is refused by %s in a line that says what to do, and is not changed in a byte', async (name) => {
    const folder = join(await makeTemporaryFolder(), 'data')
    const clinic = clinics.get(made)!
    await cp(clinic.folder, folder, { recursive: true })
    await make(folder)
    const files = { backup: clinics.get(given)!.backup, free: join(await makeTemporaryFolder(), 'free') }
    const command: Command = commands[name]
    const before = await readOrNull(folder)

    const { status, printed, complaints } = await runHere(command.args(files), { DATA_DIR: folder, DATA_KEY: given, LOG_LEVEL: 'error', ...command.environment })

    expect({ status, printed }).toEqual({ status: 2, printed: [] })
    expect(complaints).toEqual([expect.stringMatching(saysTo[name] ?? says)])
    expect(await readOrNull(folder)).toEqual(before)
    expect(await readOrNull(files.free)).toBeNull()
  })
})

async function makeClinic(key: string): Promise<{ folder: string; backup: string }> {
  const base = await mkdtemp(join(tmpdir(), 'nuchal-'))
  bases.push(base)
  const [folder, backup] = [join(base, 'data'), join(base, 'backup')]
  const environment = { DATA_DIR: folder, DATA_KEY: key }
  for (const args of [['enrol', plan], ['backup', '--to', backup]]) expect((await runHere(args, environment)).status).toBe(0)
  return { folder, backup }
}

async function readOrNull(folder: string): Promise<unknown> {
  return readFolder(folder).catch(() => null)
}
