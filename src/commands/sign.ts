// A clinician signs the triage content of this clinic: it is printed whole, and the signature is kept beside the clinic's data.
import { mkdirSync, renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { contentFolder, shippedContent, systemClock } from '#src/app.ts'
import { readConfig } from '#src/config.ts'
import { digestOfMatter, readTriageMatter } from '#src/content/triage-matter.ts'
import { signatureFileName, signerSchema, writeSignatureText } from '#src/content/triage-signature.ts'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import type { TriageSignature } from '#src/domain/signature.ts'
import { describeMatter } from './describe-matter.ts'
import { InputError } from './input-error.ts'
import type { Surface } from './surface.ts'

export interface SignOptions {
  readonly show?: true
  readonly name?: string
  readonly registration?: string
  /** The version that was reviewed. */
  readonly iHaveReviewedIt?: string
}

export function sign(options: SignOptions, { environment, print }: Surface): void {
  const matter = readTriageMatter(contentFolder, shippedContent())
  if (options.show === true) return print(describeMatter(matter).join('\n'))
  const { dataDir } = readConfig(environment)
  const signature = signatureFrom(options, matter.version)
  keep(dataDir, writeSignatureText(signature, digestOfMatter(matter)))
  print(describeMatter(matter).join('\n'))
  print('')
  print(`Signed: version ${signature.version}, by ${signature.name} (${signature.registration}) on ${signature.on}.`)
  print('It counts from the next start. A change of this content asks for a new signature.')
}

function signatureFrom({ name, registration, iHaveReviewedIt }: SignOptions, version: string): TriageSignature {
  const how = `Read it with "sign --show", then sign with --name, --registration and --i-have-reviewed-it ${version}.`
  if (name === undefined || registration === undefined) throw new InputError(`A signature needs a name and a registration. ${how}`)
  if (iHaveReviewedIt === undefined) throw new InputError(`Nobody signs unread: the triage content is of version ${version}. ${how}`)
  if (iHaveReviewedIt.trim() !== version) throw new InputError(`The triage content in force is of version ${version}, not of the one that was named. ${how}`)
  const signer = signerSchema.safeParse({ name: name.trim(), registration: registration.trim() })
  if (!signer.success) {
    const issue = signer.error.issues[0]
    const mend = issue?.code === 'custom' ? String(issue.params?.['mend']) : ''
    throw new InputError(`--${String(issue?.path[0])} ${issue?.message ?? 'cannot be used'}. ${mend}`)
  }
  return { ...signer.data, on: brandAs<LocalDate>(new Date(systemClock.now()).toISOString().slice(0, 10)), version }
}

/** Whole or not at all: half a signature would close the gates. */
function keep(folder: string, text: string): void {
  const file = join(folder, signatureFileName)
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 })
    writeFileSync(`${file}.new`, text, { mode: 0o600 })
    renameSync(`${file}.new`, file)
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? 'unknown'
    throw new InputError(`${file}: cannot be written (${code}). Check DATA_DIR and its permissions.`, { cause: error })
  }
}
