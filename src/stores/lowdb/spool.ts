import { randomBytes } from 'node:crypto'
import { open, rm } from 'node:fs/promises'
import { join } from 'node:path'

/** Texts by key, on the disk and not in memory; what a key had before is superseded. */
export interface Spool {
  put(key: string, text: string): Promise<void>
  get(key: string): Promise<string | null>
  drop(key: string): void
  close(): Promise<void>
}

/** A file in `folder` that loses its name at once, so that nothing is left of it, however the process ends. */
export async function openSpool(folder: string): Promise<Spool> {
  const path = join(folder, `.nuchal-${randomBytes(8).toString('hex')}.spool`)
  const file = await open(path, 'wx+', 0o600)
  await rm(path, { force: true })
  const places = new Map<string, { readonly start: number; readonly length: number }>()
  let end = 0
  return {
    async put(key, text) {
      const bytes = Buffer.from(text, 'utf8')
      const start = end
      end += bytes.length
      for (let done = 0; done < bytes.length; ) done += (await file.write(bytes, done, bytes.length - done, start + done)).bytesWritten
      places.set(key, { start, length: bytes.length })
    },
    async get(key) {
      const place = places.get(key)
      if (place === undefined) return null
      const bytes = Buffer.alloc(place.length)
      const { bytesRead } = await file.read(bytes, 0, place.length, place.start)
      if (bytesRead !== place.length) throw new Error('the spool was cut')
      return bytes.toString('utf8')
    },
    drop: (key) => void places.delete(key),
    close: () => file.close(),
  }
}
