// The file of a backup: what it says of itself, and that nothing cut, changed, moved or added goes unnoticed.
import { readFile, readdir, stat, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { gunzipSync, gzipSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { sealLine, type BackupHeader } from '#src/commands/copies/backup-format.ts'
import { readBackup, readBackupHeader, type BackupContent } from '#src/commands/copies/read-backup.ts'
import { writeBackup } from '#src/commands/copies/write-backup.ts'
import type { DocumentCopy } from '#src/ports/archive.ts'
import { plain, type Cipher } from '#src/stores/cipher.ts'
import { makeCipher } from '#tests/support/data-keys.ts'
import { documentId, makeEntry, makeHead, makeSend, makeTally } from '#tests/support/store-samples.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'

const at = Date.parse('2026-01-05T18:00:00Z')
const secret = 'my left arm went numb \u2028 and then \u0000 some'
const copies: readonly DocumentCopy[] = ['a', 'b', 'c'].map((name, index) => {
  const id = documentId(name)
  return { document: makeTally(id, index), head: makeHead(id), seen: [], owed: [{ effect: makeSend(name), attempts: index }], refs: [], entries: [makeEntry(name, { secret })] }
})
const files = [{ name: 'triage-signature.yaml', text: 'name: Maren Holt\n' }] as const

async function* each<T>(values: readonly T[]): AsyncGenerator<T> {
  yield* values
}

interface Made {
  readonly path: string
  readonly source: { readonly path: string; readonly cipher: Cipher; readonly steps: readonly [] }
}

async function make(cipher: Cipher = plain, from: AsyncIterable<DocumentCopy> = each(copies)): Promise<Made> {
  const path = join(await makeTemporaryFolder(), 'clinic.backup')
  await writeBackup({ path, replaces: false, copies: from, files, cipher, documentFormat: 1, at, onDocument: () => {} })
  return { path, source: { path, cipher, steps: [] } }
}

async function readAll(source: Made['source']): Promise<readonly BackupContent[]> {
  const contents: BackupContent[] = []
  for await (const content of readBackup(source)) contents.push(content)
  return contents
}

async function linesOf(path: string): Promise<readonly string[]> {
  return gunzipSync(await readFile(path)).toString('utf8').split('\n').slice(0, -1)
}

async function writeLines(path: string, lines: readonly string[]): Promise<void> {
  await writeFile(path, gzipSync(lines.map((line) => `${line}\n`).join('')))
}

const ciphers: readonly (readonly [string, Cipher])[] = [['that is not encrypted', plain], ['that is encrypted', makeCipher(1)]]

describe.each(ciphers)('a backup %s', (_, cipher) => {
  it('says first what it is, of when and how many, and comes out as it went in', async () => {
    const { path, source } = await make(cipher)
    const [first = ''] = await linesOf(path)

    expect(JSON.parse(first)).toEqual({
      kind: 'nuchal-backup',
      format: 1,
      id: expect.stringMatching(/^[0-9a-f]{32}$/) as string,
      writtenAt: '2026-01-05T18:00:00.000Z',
      documents: 3,
      documentFormat: 1,
      keyId: cipher.keyId,
    })
    expect(await readAll(source)).toEqual([
      { kind: 'file', file: files[0] },
      ...copies.map((copy) => ({ kind: 'document', copy })),
      { kind: 'end', end: { documents: 3, files: 1, entries: 3, sha256: expect.stringMatching(/^[0-9a-f]{64}$/) as string } },
    ])
  })

  it('of nothing is whole as well', async () => {
    const { source } = await make(cipher, each<DocumentCopy>([]))
    expect((await readAll(source)).map(({ kind }) => kind)).toEqual(['file', 'end'])
  })

  it('is its owner’s alone, and nothing else is left in the folder', async () => {
    const { path } = await make(cipher)
    expect((await stat(path)).mode & 0o777).toBe(0o600)
    expect(await readdir(join(path, '..'))).toEqual(['clinic.backup'])
  })

  it('cut at any byte is refused', async () => {
    const { path, source } = await make(cipher)
    const bytes = await readFile(path)
    const taken: number[] = []
    const step = cipher.keyId === null ? 1 : 7
    for (let length = 0; length < bytes.length; length += step) {
      await writeFile(path, bytes.subarray(0, length))
      await readAll(source).then(() => taken.push(length), (error: unknown) => expect(error).toMatchObject({ name: 'StoreError', code: 'damaged' }))
    }
    expect(taken).toEqual([])
  }, 60_000)

  it('changed in any one byte of its lines is refused', async () => {
    const { path, source } = await make(cipher)
    const text = gunzipSync(await readFile(path))
    const taken: number[] = []
    const step = cipher.keyId === null ? 3 : 11
    for (let place = 0; place < text.length; place += step) {
      const changed = Buffer.from(text)
      changed[place] = changed[place]! ^ 1
      await writeFile(path, gzipSync(changed))
      await readAll(source).then(() => taken.push(place), (error: unknown) => expect(error).toMatchObject({ name: 'StoreError' }))
    }
    expect(taken).toEqual([])
  }, 60_000)

  const changes: readonly (readonly [string, (lines: readonly string[]) => readonly string[]])[] = [
    ['without its first line', (lines) => lines.slice(1)],
    ['without its last line', (lines) => lines.slice(0, -1)],
    ['without a document', (lines) => lines.toSpliced(3, 1)],
    ['with a document twice', (lines) => lines.toSpliced(3, 0, lines[3]!)],
    ['with two documents exchanged', (lines) => [...lines.slice(0, 2), lines[3]!, lines[2]!, ...lines.slice(4)]],
    ['that goes on behind its end', (lines) => [...lines, lines[2]!]],
    ['with two ends', (lines) => [...lines, lines.at(-1)!]],
    ['with an empty line', (lines) => lines.toSpliced(2, 0, '')],
  ]
  it.each(changes)('%s is refused as damaged', async (_title, change) => {
    const { path, source } = await make(cipher)
    await writeLines(path, change(await linesOf(path)))
    await expect(readAll(source)).rejects.toMatchObject({ name: 'StoreError', code: 'damaged', message: expect.stringContaining('Nothing was put in from it; take another one.') as string })
  })

  it.each<readonly [string, object]>([
    ['of a later form', { format: 2 }],
    ['with documents of a later shape', { documentFormat: 2 }],
  ])('%s is refused as newer, by its first line', async (_title, change) => {
    const { path, source } = await make(cipher)
    const [first = '', ...others] = await linesOf(path)
    await writeLines(path, [JSON.stringify({ ...(JSON.parse(first) as object), ...change }).padEnd(first.length), ...others])
    await expect(readBackupHeader(source)).rejects.toMatchObject({ code: 'newer', message: expect.stringContaining('Install that version or a later one') as string })
  })

  it('says nothing that a document holds in what it complains of', async () => {
    const { path, source } = await make(cipher)
    await writeLines(path, (await linesOf(path)).toSpliced(3, 1))
    const error: unknown = await readAll(source).catch((thrown: unknown) => thrown)
    expect(String(error)).not.toContain('numb')
  })
})

describe('an encrypted backup', () => {
  it('holds no word that can be read', async () => {
    const { path } = await make(makeCipher(1))
    const text = (await linesOf(path)).join('\n')
    expect(['numb', 'Ada', 'Maren', 'tally', 'text of a'].filter((word) => text.includes(word))).toEqual([])
  })

  it.each<readonly [string, Cipher, Cipher, RegExp]>([
    ['with another key', makeCipher(1), makeCipher(2), /is encrypted with another key/],
    ['without its key', makeCipher(1), plain, /DATA_KEY is empty/],
    ['that is none, with a key', plain, makeCipher(1), /is not encrypted, but DATA_KEY is set\. If it is the clinic's own, restore it with DATA_KEY empty, then encrypt what was restored/],
  ])('%s is refused by its first line', async (_title, made, given, says) => {
    const { source } = await make(made)
    await expect(readBackupHeader({ ...source, cipher: given })).rejects.toMatchObject({ code: 'keyed', message: expect.stringMatching(says) as string })
  })

  it('takes no line of another backup of the same clinic', async () => {
    const cipher = makeCipher(1)
    const [{ path, source }, other] = [await make(cipher), await make(cipher)]
    const [lines, others] = [await linesOf(path), await linesOf(other.path)]
    await writeLines(path, lines.toSpliced(2, 1, others[2]!))
    await expect(readAll(source)).rejects.toMatchObject({ code: 'damaged' })
  })
})

describe('a file that is no backup', () => {
  it.each<readonly [string, Buffer]>([
    ['empty', Buffer.alloc(0)],
    ['a text', Buffer.from('a note to Maren Holt\n')],
    ['compressed, but no backup', gzipSync('{"kind":"something"}\n')],
    ['compressed, with one line without an end', gzipSync('x'.repeat(1_000))],
  ])('%s is refused as damaged', async (_title, bytes) => {
    const path = join(await makeTemporaryFolder(), 'file')
    await writeFile(path, bytes)
    await expect(readAll({ path, cipher: plain, steps: [] })).rejects.toMatchObject({ code: 'damaged' })
  })

  it('that is not there is told by its name', async () => {
    const path = join(await makeTemporaryFolder(), 'file')
    await expect(readBackupHeader({ path, cipher: plain, steps: [] })).rejects.toMatchObject({ code: 'input-unusable', message: `${path}: there is no such file: check the path` })
  })

  it('that names a file of its own choice beside the documents is refused', async () => {
    const { path, source } = await make()
    const lines = await linesOf(path)
    const header = JSON.parse(lines[0]!) as BackupHeader
    const foreign = sealLine(plain, header, 1, JSON.stringify({ file: { name: '../lock.json', text: '' } }))
    await writeLines(path, lines.toSpliced(1, 1, foreign))
    await expect(readAll(source)).rejects.toMatchObject({ code: 'damaged' })
  })
})

describe('writing a backup', () => {
  it('leaves nothing behind where the store fails on the way', async () => {
    const folder = await makeTemporaryFolder()
    const path = join(folder, 'clinic.backup')
    const mistake = new Error('a mistake')
    async function* failing(): AsyncGenerator<DocumentCopy> {
      yield copies[0]!
      throw mistake
    }
    const written = writeBackup({ path, replaces: false, copies: failing(), files, cipher: plain, documentFormat: 1, at, onDocument: () => {} })
    await expect(written).rejects.toBe(mistake)
    expect(await readdir(folder)).toEqual([])
  })

  it('puts nothing in the place of a file that came to stand there meanwhile, unless it was told to', async () => {
    const folder = await makeTemporaryFolder()
    const path = join(folder, 'clinic.backup')
    async function* slow(): AsyncGenerator<DocumentCopy> {
      await writeFile(path, 'another')
      yield* copies
    }
    const parts = { path, files, cipher: plain, documentFormat: 1, at, onDocument: () => {} }
    await expect(writeBackup({ ...parts, replaces: false, copies: slow() })).rejects.toMatchObject({ code: 'input-unusable' })
    const kept = await readFile(path, 'utf8')
    await writeBackup({ ...parts, replaces: true, copies: slow() })

    expect(kept).toBe('another')
    expect(await readdir(folder)).toEqual(['clinic.backup'])
    expect((await readAll({ path, cipher: plain, steps: [] })).length).toBe(5)
  })
})
