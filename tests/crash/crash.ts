// `npm run crash -- --kills N --store lowdb|postgres [--seed S] [--clinics C]`: clinics of invented people on the real
// process, which is killed again and again; then an audit of what is stored and what is on the screens. Exits with 1 where
// something was lost, doubled or decided otherwise than in an uninterrupted run, with 2 for arguments that are none.
import { parseArgs } from 'node:util'
import { createProgress } from '#src/commands/rehearse/progress.ts'
import { buildProduct } from '#tests/support/built-product.ts'
import { audit, type Audited } from './audit.ts'
import { liveThrough, type Lived } from './clinic.ts'
import { printTable } from './print-table.ts'
import { readRecords, type ClientRecord } from './records.ts'
import { openTestStore, storeKinds, type StoreKind, type TestStore } from './test-store.ts'

interface Options {
  readonly kills: number
  readonly store: StoreKind
  readonly seed: number
  readonly clinics: number
}

/** A network takes one message a second to a person, so that a clinic mostly waits: these keep two cores busy. */
const usualClinics = 8

function readOptions(): Options | string {
  const whole = (text: string | undefined, least: number): number | null => (text !== undefined && /^\d{1,9}$/.test(text) && Number(text) >= least ? Number(text) : null)
  try {
    const { values } = parseArgs({ options: { kills: { type: 'string' }, store: { type: 'string' }, seed: { type: 'string' }, clinics: { type: 'string' } } })
    const kills = whole(values.kills ?? '20', 1)
    const seed = whole(values.seed ?? String(Date.now() % 1_000_000), 0)
    const clinics = whole(values.clinics ?? String(Math.min(usualClinics, kills ?? 1)), 1)
    const store = storeKinds.find((kind) => kind === (values.store ?? 'lowdb'))
    if (kills === null || seed === null || clinics === null || clinics > kills) return '--kills, --seed and --clinics have to be whole numbers, and there is a kill for each clinic'
    return store === undefined ? `--store has to be one of: ${storeKinds.join(', ')}` : { kills, seed, clinics, store }
  } catch (error) {
    return error instanceof Error ? error.message : 'the arguments cannot be read'
  }
}

async function playClinic(store: TestStore, seed: number, kills: number, killed: () => void): Promise<{ lived: Lived; audited: Audited }> {
  const lived = await liveThrough({ store, seed, kills, pages: null, killed })
  const calm = await liveThrough({ store, seed, kills: 0, pages: lived.pages, killed: () => undefined })
  try {
    const records: ReadonlyMap<string, ClientRecord> = await readRecords(calm.environment)
    const audited = await audit(lived, records)
    return { lived, audited: { ...audited, findings: [...audited.findings, ...calm.faults.map((fault) => `without a kill: ${fault}`)] } }
  } finally {
    await lived.close()
    await calm.close()
  }
}

async function main({ kills, store: kind, seed, clinics }: Options): Promise<number> {
  const began = performance.now()
  console.error(`crash: ${kills} kills on ${kind}, ${clinics} clinics at once, seed ${seed}`)
  const progress = createProgress(kills, (text) => void process.stderr.write(text))
  const product = await buildProduct()
  const store = await openTestStore[kind]()
  try {
    const shares = Array.from({ length: clinics }, (_, index) => Math.floor((kills + index) / clinics))
    const played = await Promise.all(shares.map((share, index) => playClinic(store, seed + index, share, () => progress.advance())))
    progress.end()
    for (const line of printTable(played, (performance.now() - began) / 1000)) console.log(line)
    const findings = played.flatMap(({ audited }) => audited.findings)
    for (const finding of findings) console.log(`FOUND: ${finding}`)
    console.log(findings.length === 0 ? `Nothing lost (seed ${seed}).` : `${findings.length} findings (seed ${seed}).`)
    return findings.length === 0 ? 0 : 1
  } finally {
    await store.close()
    await product.remove()
  }
}

const options = readOptions()
if (typeof options === 'string') {
  console.error(`crash: ${options}.`)
  process.exit(2)
}
// Not left to the end of all work: the database's library would end the process with 0.
process.exit(await main(options))
