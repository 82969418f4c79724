import { readFileSync } from 'node:fs'
import { InputError } from './input-error.ts'

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file: check the path',
  EISDIR: 'this is a folder: name a file in it',
  EACCES: 'it may not be read: check its permissions',
}

/** The text of a file that somebody named on the command line. */
export function readInputFile(path: string): string {
  try {
    return readFileSync(path, 'utf8')
  } catch (error) {
    throw describeUnreadable(path, error)
  }
}

/** `error` is the system's. */
export function describeUnreadable(path: string, error: unknown): InputError {
  const code = (error as NodeJS.ErrnoException).code ?? 'unknown'
  return new InputError(`${path}: ${reasons[code] ?? `it cannot be read (${code})`}`, { cause: error })
}
