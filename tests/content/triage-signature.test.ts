import { mkdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { readSignature, signatureFileName, writeSignatureText } from '#src/content/triage-signature.ts'
import { mayTakeIn, type SignatureState } from '#src/domain/signature.ts'
import { signature } from '#tests/support/signed-content.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'

const digest = 'a'.repeat(64)

async function folderWith(text: string): Promise<string> {
  const folder = await makeTemporaryFolder()
  await writeFile(join(folder, signatureFileName), text)
  return folder
}

describe('the signature of a data folder', () => {
  it('is read as it was written, for the content that was signed', async () => {
    const folder = await folderWith(writeSignatureText(signature, digest))
    expect(readSignature(folder, digest)).toEqual({ state: { kind: 'signed', by: signature }, problems: [] })
  })

  it('of other content says who signed what, and is a problem with its line', async () => {
    const folder = await folderWith(writeSignatureText(signature, 'b'.repeat(64)))
    expect(readSignature(folder, digest)).toEqual({
      state: { kind: 'changed', by: signature },
      problems: [
        {
          file: signatureFileName,
          line: 6,
          path: 'digest',
          message: 'is not of the triage content in force',
          mend: 'Review what has changed (sign --show) and sign again.',
        },
      ],
    })
  })

  it('is none where there is no file, or no folder', async () => {
    const folder = await makeTemporaryFolder()
    expect([folder, join(folder, 'missing')].map((path) => readSignature(path, digest))).toEqual(Array(2).fill({ state: { kind: 'unsigned' }, problems: [] }))
  })

  it.each([
    ['empty', ''],
    ['no YAML', 'name: "Saoirse'],
    ['without a registration', writeSignatureText(signature, digest).replace(/registration: .*\n/, '')],
    ['with a registration that is no number', writeSignatureText({ ...signature, registration: 'pending' }, digest)],
    ['with something more', `${writeSignatureText(signature, digest)}valid: true\n`],
  ])('that is %s cannot be used, which is a problem and no failure', async (_what, text) => {
    const { state, problems } = readSignature(await folderWith(text), digest)
    expect(state).toEqual({ kind: 'unusable' })
    expect(problems.map(({ file }) => file)).toEqual([signatureFileName])
  })

  it('that is a folder cannot be used', async () => {
    const folder = await makeTemporaryFolder()
    await mkdir(join(folder, signatureFileName))
    expect(readSignature(folder, digest)).toMatchObject({ state: { kind: 'unusable' }, problems: [{ message: 'cannot be read' }] })
  })
})

describe('nobody is taken in', () => {
  it.each<readonly [SignatureState, boolean]>([
    [{ kind: 'demo' }, true],
    [{ kind: 'signed', by: signature }, true],
    [{ kind: 'unsigned' }, false],
    [{ kind: 'unusable' }, false],
    [{ kind: 'changed', by: signature }, false],
  ])('but under content that is signed as it is, or in the demo: %j, %s', (state, may) => {
    expect(mayTakeIn(state)).toBe(may)
  })
})
