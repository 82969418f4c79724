import { readdir, readFile } from 'node:fs/promises'
import { extname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

export interface PageFile {
  readonly type: string
  readonly body: Buffer
}

/** Only these are served; anything else in the folder stays private. */
const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.svg': 'image/svg+xml',
}

const folder = fileURLToPath(new URL('./page/', import.meta.url))

/** The page's files by path, read once: no path that a request names ever reaches the file system. */
export async function readPageFiles(): Promise<ReadonlyMap<string, PageFile>> {
  const names = (await readdir(folder)).filter((name) => types[extname(name)] !== undefined)
  const files = await Promise.all(
    names.map(async (name) => {
      const path = name === 'index.html' ? '/' : `/${name}`
      return [path, { type: types[extname(name)]!, body: await readFile(join(folder, name)) }] as const
    }),
  )
  return new Map(files)
}
