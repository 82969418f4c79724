import { documentMigrations } from '#src/chart/document-migrations.ts'
import { readConfig, type Config } from '#src/config.ts'
import { cipherFor } from '#src/stores/cipher.ts'
import { nodeFileSystem } from '#src/stores/lowdb/file-system.ts'
import { refuseFilling } from '#src/stores/lowdb/filling-mark.ts'
import { rotateKey } from '#src/stores/lowdb/rotate-key.ts'
import { InputError } from '../input-error.ts'
import type { Surface } from '../surface.ts'
import { placeClinicFiles, readClinicFiles } from './clinic-files.ts'
import { compareCopies } from './compare-copies.ts'
import { createCountLine } from './count-line.ts'
import { presentPlace, targetPlace } from './places.ts'

export interface MigrateOptions {
  readonly to?: string
  readonly rekey?: true
  readonly json?: true
}

/** To another store, or to another key in the same folder. */
export async function migrate({ to, rekey, json }: MigrateOptions, surface: Surface): Promise<void> {
  const config = readConfig(surface.environment)
  if (to !== undefined && rekey !== undefined) throw new InputError('--to and --rekey are two steps. Do one after the other.')
  if (to !== undefined) return moveTo(to, config, json === true, surface)
  if (rekey === undefined) throw new InputError('Nothing says where to. Name a store with --to, or change the key with --rekey.')
  return changeKey(config, json === true, surface)
}

async function moveTo(to: string, config: Config, asJson: boolean, { print, terminal }: Surface): Promise<void> {
  const { place, folder, next } = targetPlace(to, config)
  const line = createCountLine(terminal)
  try {
    const { compared, kept } = await presentPlace(config).whileHeld((source) =>
      place.fill(async (target) => {
        for await (const copy of source.copyOut()) {
          await target.copyIn(copy)
          line.count('documents put in')
        }
        const compared = await compareCopies(source.copyOut(), target.copyOut(), () => line.count('documents compared'))
        return { compared, kept: folder === null ? [] : await placeClinicFiles(folder, await readClinicFiles(config.dataDir)) }
      }),
    )
    line.end()
    if (asJson) return print(JSON.stringify({ to, ...compared, kept }))
    print(`${compared.documents} documents with ${compared.entries} entries lie in ${to}; each was compared with where it came from, which was left as it is.`)
    const key = config.nextDataKey === null ? '' : ', and DATA_KEY to what DATA_KEY_NEXT says,'
    print(`Start with ${next}${key} from now on, and never start the old store again: two clinics would answer the same people.`)
    for (const name of kept) print(`${name} stood there already and was left as it is.`)
  } catch (error) {
    line.end()
    throw error
  }
}

async function changeKey({ databaseUrl, dataDir, dataKey, nextDataKey }: Config, asJson: boolean, { print, terminal }: Surface): Promise<void> {
  if (databaseUrl !== null) {
    throw new InputError('The key of a database is changed on the way into another: "migrate --to postgres" with DATA_KEY_NEXT and TARGET_DATABASE_URL set.')
  }
  if (nextDataKey === null) throw new InputError('DATA_KEY_NEXT is empty. Set it to the new key, or to none to have nothing encrypted any more.')
  await refuseFilling(nodeFileSystem, dataDir)
  const [from, to] = [cipherFor(dataKey), cipherFor(nextDataKey === 'none' ? null : nextDataKey)]
  const line = createCountLine(terminal)
  const rotated = await rotateKey({ folder: dataDir, from, to, steps: documentMigrations, onProgress: () => line.count('files sealed anew') }).finally(() => line.end())
  if (asJson) return print(JSON.stringify({ ...rotated, keyId: to.keyId }))
  const now =
    to.keyId === null
      ? 'Nothing is encrypted any more: leave DATA_KEY empty from now on.'
      : `They are encrypted with key ${to.keyId}: put it into DATA_KEY and clear DATA_KEY_NEXT.`
  print(`${rotated.resealed} of ${rotated.files} files were sealed anew. ${now}`)
  print('Backups made before need the key that they were made with.')
}
