import { readdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { runHere } from './run-here.ts'

const plan = 'content/plans/extension.yaml'

async function chartFile(folder: string): Promise<string> {
  const names = await readdir(folder, { recursive: true, withFileTypes: true })
  const found = names.find((name) => name.isFile() && name.name.startsWith('chart-'))
  if (!found) throw new Error(`no chart among: ${names.map((name) => name.name).join(', ')}`)
  return join(found.parentPath, found.name)
}

describe('enrol', () => {
  it('prints an invitation, and says that a clinic without a therapist does not open it yet', async () => {
    const folder = await makeTemporaryFolder()
    const plain = await runHere(['enrol', plan], { DATA_DIR: folder })
    const asJson = await runHere(['enrol', plan, '--json'], { DATA_DIR: folder, PORT: '5000' })

    expect(plain).toEqual({
      status: 0,
      complaints: [],
      printed: [
        expect.stringMatching(/^Orla Tiernan is enrolled\. The invitation works once, until \d{4}-\d\d-\d\dT.*Z:$/),
        expect.stringMatching(/^http:\/\/127\.0\.0\.1:4870\/\?join=[\w-]{32}$/),
        'This clinic has no therapist yet: the invitation opens once one has claimed it with the code that start prints.',
      ],
    })
    const { token, link, expiresAt, ...rest } = JSON.parse(asJson.printed.join('')) as Record<string, string>
    expect(rest).toEqual({ client: 'Orla Tiernan', therapist: null })
    expect(link).toBe(`http://127.0.0.1:5000/?join=${token}`)
    expect(new Date(expiresAt!).toISOString()).toBe(expiresAt)
  })

  it('asks about a maximal force that seems to be in the wrong unit, and enrols nobody by it', async () => {
    const folder = await makeTemporaryFolder()
    const doubted = join(folder, 'plan.yaml')
    await writeFile(doubted, (await readFile(plan, 'utf8')).replace('force: 120, unit: N', 'force: 120, unit: kgf'))
    const enrolled = await runHere(['enrol', doubted], { DATA_DIR: join(folder, 'data') })
    const sentence = `${doubted}:36: measurements[0].force is unusual for this direction; as so many N it would be usual. Correct it, or write "confirmed: true" beside it if it was measured so.`
    expect(enrolled).toEqual({ status: 2, printed: [], complaints: [sentence] })

    const tried = await runHere(['rehearse', '--plan', doubted, '--virtual', '0'], {})
    expect(tried).toEqual({ status: 0, printed: [], complaints: [sentence] })
  })

  it('keeps no token of an invitation', async () => {
    const folder = await makeTemporaryFolder()
    const { printed } = await runHere(['enrol', plan, '--json'], { DATA_DIR: folder })
    const { token } = JSON.parse(printed.join('')) as { token: string }
    const names = await readdir(folder, { recursive: true, withFileTypes: true })
    const texts = await Promise.all(names.filter((name) => name.isFile()).map((name) => readFile(join(name.parentPath, name.name), 'utf8')))
    expect(texts.join('\n')).toContain('Orla Tiernan')
    expect(texts.join('\n')).not.toContain(token)
  })

  it.each(['enrol', 'start'])('like every command that opens the store, here %s, names a damaged file, keeps it and goes no further', async (command) => {
    const folder = await makeTemporaryFolder()
    await runHere(['enrol', plan], { DATA_DIR: folder })
    const file = await chartFile(folder)
    const cut = (await readFile(file, 'utf8')).slice(0, 100)
    await writeFile(file, cut)
    const { status, printed, complaints } = await runHere(command === 'start' ? ['start'] : ['enrol', plan], { DATA_DIR: folder, PORT: '0' })

    expect({ status, printed, complaints }).toEqual({ status: 2, printed: [], complaints: [expect.stringContaining(file)] })
    expect(complaints.join('')).not.toContain('Orla')
    expect(await readFile(file, 'utf8')).toBe(cut)
  })
})
