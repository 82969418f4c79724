// Makes the disk of a process full, at its own calls of the file system.
import fs from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'

export const disk = { isFull: false }

/** As a full disk behaves: names can be made, a few bytes still fit, and then the write fails. */
function full(): NodeJS.ErrnoException {
  return Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC', errno: -28, syscall: 'write' })
}

const open = fs.promises.open
fs.promises.open = async (...args) => {
  const handle = await open(...args)
  const writeFile = handle.writeFile.bind(handle)
  handle.writeFile = async (data, ...rest) => {
    if (!disk.isFull) return writeFile(data, ...rest)
    await writeFile(String(data).slice(0, 100), ...rest)
    throw full()
  }
  return handle
}
const writeFile = fs.promises.writeFile
fs.promises.writeFile = async (...args) => {
  if (disk.isFull) throw full()
  return writeFile(...args)
}
const writeFileSync = fs.writeFileSync
fs.writeFileSync = (...args) => {
  if (disk.isFull) throw full()
  return writeFileSync(...args)
}
syncBuiltinESMExports()
