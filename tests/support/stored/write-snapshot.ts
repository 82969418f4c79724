// `npm run snapshot`: stores the documents of every case as this version writes them, for all later versions to open.
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { clinicId } from '#src/chart/clinic.ts'
import type { Desk } from '#src/chart/desk.ts'
import { createProduct, openStore } from '#src/app.ts'
import { readConfig } from '#src/config.ts'
import { documentFileName } from '#src/stores/document-file-name.ts'
import { nextPrescription } from './live-on.ts'
import { storedCases, type StoredCase } from './stored-cases.ts'
import { putToStore } from './write-stored.ts'
import { storedFolder } from './stored-folder.ts'

const product = createProduct('demo')
const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { readonly version: string }
const target = join(storedFolder, version)

if (existsSync(target)) {
  console.error(`${target} is there already. What a released version has stored is never written anew.`)
  process.exitCode = 2
} else {
  for (const one of storedCases()) await writeCase(one)
}

async function writeCase(one: StoredCase): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'nuchal-snapshot-'))
  const store = openStore(readConfig({ DATA_DIR: folder }))
  await store.open()
  const shown = await putToStore(store, product, one.taken, one.isCutOff)
  const [document] = one.documents
  const prompt = (await store.read<Desk>(document ?? clinicId))?.prompt
  const buttons = (prompt && shown.get(prompt.effect)) ?? []
  await store.close()
  for (const id of one.documents) keep(folder, join(target, one.name), documentFileName(id))
  const next = document?.startsWith('chart-') === true ? await nextPrescription(folder, document, one.at) : null
  writeFileSync(join(target, one.name, 'case.json'), `${JSON.stringify({ at: one.at, buttons, next })}\n`)
  rmSync(folder, { recursive: true })
}

function keep(folder: string, caseFolder: string, name: string): void {
  mkdirSync(join(caseFolder, 'documents'), { recursive: true })
  cpSync(join(folder, 'documents', `${name}.json`), join(caseFolder, 'documents', `${name}.json`))
  const volumes = join(folder, 'volumes', name)
  if (existsSync(volumes)) cpSync(volumes, join(caseFolder, 'volumes', name), { recursive: true })
}
