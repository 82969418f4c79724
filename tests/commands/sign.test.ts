// The triage content is signed from the command line, and the commands that enrol, check and start heed it.
import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeEach, describe, expect, it } from 'vitest'
import { content } from '#tests/support/sample-chain.ts'
import { apiRoot, createTelegramApi, token } from '#tests/support/telegram-api.ts'
import { createVirtualWait } from '#tests/support/virtual-wait.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { runHere, type RanHere } from './run-here.ts'

const plan = 'content/plans/extension.yaml'
const { version } = content.triage
const signer = ['--name', 'Saoirse Bly', '--registration', 'Invented register 4711']
let folder = ''
beforeEach(async () => {
  folder = join(await makeTemporaryFolder(), 'data')
})

function sign(...options: readonly string[]): Promise<RanHere> {
  return runHere(['sign', ...options], { DATA_DIR: folder })
}

function signWhole(): Promise<RanHere> {
  return sign(...signer, '--i-have-reviewed-it', version)
}

/** As a clinic on a network, where invited people are real. */
async function enrol(...options: readonly string[]): Promise<RanHere> {
  const api = createTelegramApi(createVirtualWait())
  try {
    return await runHere(['enrol', plan, ...options], { DATA_DIR: folder, TELEGRAM_BOT_TOKEN: token, TELEGRAM_API_ROOT: apiRoot })
  } finally {
    api.close()
  }
}

/** As if the content had been changed since it was signed. */
async function changeSince(): Promise<void> {
  const file = join(folder, 'triage-signature.yaml')
  await writeFile(file, (await readFile(file, 'utf8')).replace(/digest: [0-9a-f]{64}/, `digest: ${'f'.repeat(64)}`))
}

describe('sign', () => {
  it('shows every sign, condition and sentence, and signs nothing by that', async () => {
    const { status, printed, complaints } = await sign('--show')
    expect([status, complaints]).toEqual([0, []])
    const text = printed.join('\n')
    const ids = [...content.triage.signs.map(({ id }) => id), ...Object.values(content.triage.gates).flatMap((gate: unknown) => (Array.isArray(gate) ? gate.map(String) : []))]
    expect(ids.filter((id) => !text.includes(id))).toEqual([])
    expect(text).toContain('This can be serious. Call {number} now')
    await expect(readFile(folder)).rejects.toMatchObject({ code: 'ENOENT' })
  })

  it('prints what is signed, and keeps who signed which version when', async () => {
    const { status, printed, complaints } = await signWhole()
    expect([status, complaints]).toEqual([0, []])
    expect(printed[0]).toContain('face-or-half-body-numbness')
    expect(printed.slice(1)).toEqual([
      '',
      expect.stringMatching(new RegExp(`^Signed: version ${version}, by Saoirse Bly \\(Invented register 4711\\) on \\d{4}-\\d\\d-\\d\\d\\.$`)),
      'It counts from the next start. A change of this content asks for a new signature.',
    ])
    const kept = await readFile(join(folder, 'triage-signature.yaml'), 'utf8')
    expect(kept).toMatch(new RegExp(`name: Saoirse Bly\\nregistration: Invented register 4711\\ndate: \\d{4}-\\d\\d-\\d\\d\\nversion: ${version}\\ndigest: [0-9a-f]{64}\\n$`))
  })

  const how = `Read it with "sign --show", then sign with --name, --registration and --i-have-reviewed-it ${version}.`
  it.each<readonly [readonly string[], string]>([
    [[], `A signature needs a name and a registration. ${how}`],
    [signer.slice(0, 2), `A signature needs a name and a registration. ${how}`],
    [signer, `Nobody signs unread: the triage content is of version ${version}. ${how}`],
    [[...signer, '--i-have-reviewed-it', '2025-01-01'], `The triage content in force is of version ${version}, not of the one that was named. ${how}`],
    [['--name', '12', ...signer.slice(2), '--i-have-reviewed-it', version], '--name must be a name. Write first and last name of the clinician who signs.'],
    [[...signer.slice(0, 3), 'pending', '--i-have-reviewed-it', version], '--registration must name a register and a number. Write the professional body and the number, e.g. "Health register 12345".'],
  ])('refuses %j, says how, and signs nothing', async (options, complaint) => {
    expect(await sign(...options)).toEqual({ status: 2, printed: [], complaints: [complaint] })
    await expect(readFile(folder)).rejects.toMatchObject({ code: 'ENOENT' })
  })
})

describe('enrol outside the demo', () => {
  const howTo = `A registered clinician reviews it with "sign --show" and signs with "sign --name … --registration … --i-have-reviewed-it ${version}".`

  it('enrols nobody while nobody has signed', async () => {
    const complaint = `Nobody can be enrolled: Triage content version ${version} is signed by nobody. ${howTo}`
    expect(await enrol()).toEqual({ status: 2, printed: [], complaints: [complaint] })
  })

  it('enrols once it is signed, and says by whom', async () => {
    await signWhole()
    const { status, printed, complaints } = await enrol()
    expect([status, complaints]).toEqual([0, []])
    expect(printed[0]).toMatch(/^Orla Tiernan is enrolled\./)
    expect(printed[2]).toMatch(new RegExp(`^Triage content version ${version}, signed by Saoirse Bly \\(Invented register 4711\\) on `))
  })

  it('enrols nobody under content that has changed since, but still changes the plan of whoever is enrolled', async () => {
    await signWhole()
    await enrol()
    await changeSince()
    const refused = await enrol()
    expect([refused.status, refused.printed]).toEqual([2, []])
    expect(refused.complaints.join()).toMatch(new RegExp(`^Nobody can be enrolled: Triage content version ${version} has changed since Saoirse Bly signed version ${version} on `))
    const replaced = await enrol('--instead-of', 'Orla Tiernan', '--because', 'seen today')
    expect([replaced.status, replaced.complaints]).toEqual([0, []])
  })
})

describe('check', () => {
  it('notes that nobody has signed, which is no fault', async () => {
    const { status, printed } = await runHere(['check'], { DATA_DIR: folder })
    expect([status, printed.join('\n').split('\n').at(-1)]).toEqual([0, `Triage content version ${version} is signed by nobody.`])
  })

  it('notes who has signed', async () => {
    await signWhole()
    const { status, printed } = await runHere(['check', '--json'], { DATA_DIR: folder })
    const { problems, notes } = JSON.parse(printed.join('')) as { problems: unknown; notes: unknown }
    expect({ status, problems, notes }).toEqual({ status: 0, problems: [], notes: [expect.stringContaining('signed by Saoirse Bly')] })
  })

  it('finds fault with a signature of other content, and says how it is mended', async () => {
    await signWhole()
    await changeSince()
    const { status, printed } = await runHere(['check'], { DATA_DIR: folder })
    expect({ status, printed }).toEqual({
      status: 1,
      printed: ['triage-signature.yaml:6: digest is not of the triage content in force. Review what has changed (sign --show) and sign again.'],
    })
  })
})
