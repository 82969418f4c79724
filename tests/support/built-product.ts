// The product in one file, for processes that tests start by the dozen: each would translate all its sources anew, which takes
// longer than what it does then. Without it they run from the sources, as `npm start` does.
import { readFile, mkdir, mkdtemp, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { build, type Plugin } from 'esbuild'

const root = fileURLToPath(new URL('../..', import.meta.url))
/** Beside the packages, so that they are found from there. */
const shelf = join(root, 'node_modules', '.cache', 'nuchal')
const support = join(root, 'tests/support')
const entries = {
  main: join(root, 'src/main.ts'),
  moved: join(support, 'moved-process.ts'),
  'hold-store': join(support, 'hold-store.ts'),
  'write-store': join(support, 'write-store.ts'),
}
export type Entry = keyof typeof entries

/** Where it lies; a process that starts others hands it on to them. */
const builtVariable = 'BUILT_PRODUCT'

export interface BuiltProduct {
  remove(): Promise<void>
}

/** From now on the processes of the tests run from it. */
export async function buildProduct(): Promise<BuiltProduct> {
  await mkdir(shelf, { recursive: true })
  const folder = await mkdtemp(join(shelf, 'product-'))
  await build({
    entryPoints: entries,
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    target: 'node20',
    keepNames: true,
    absWorkingDir: root,
    plugins: [whereItStood],
  })
  process.env[builtVariable] = folder
  return {
    async remove() {
      Reflect.deleteProperty(process.env, builtVariable)
      await rm(folder, { recursive: true, force: true })
    },
  }
}

/** What node is started with, before the command and its options; `isMoved`: with `moved-process.ts` loaded first. */
export function nodeOptions({ isMoved = false }: { readonly isMoved?: boolean } = {}): readonly string[] {
  return [...translator(), ...(isMoved ? ['--import', pathOf('moved')] : []), pathOf('main')]
}

/** What node is started with for one of these, before its arguments. */
export function entryOptions(entry: Entry): readonly string[] {
  return [...translator(), pathOf(entry)]
}

/** What node needs for sources. */
export function translator(): readonly string[] {
  return process.env[builtVariable] === undefined ? ['--import', 'tsx'] : []
}

export function pathOf(entry: Entry): string {
  const folder = process.env[builtVariable]
  return folder === undefined ? entries[entry] : join(folder, `${entry}.mjs`)
}

/** A module that looks for files beside itself finds them where its source stands. */
const whereItStood: Plugin = {
  name: 'where-it-stood',
  setup({ onLoad }) {
    onLoad({ filter: /\.ts$/, namespace: 'file' }, async ({ path }) => {
      const source = await readFile(path, 'utf8')
      return { contents: source.replaceAll('import.meta.url', JSON.stringify(pathToFileURL(path).href)), loader: 'ts' }
    })
  },
}
