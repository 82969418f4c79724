import { StoreError } from '#src/ports/store.ts'

/** POSIX error numbers by name: no space left, and a user's quota used up. */
const fullCodes: ReadonlySet<string> = new Set(['ENOSPC', 'EDQUOT'])

/** A failure of the disk at `place` as the port's error; an error of ours passes as it is. */
export function toStoreError(error: unknown, place: string): unknown {
  if (error instanceof StoreError) return error
  const code = readErrorCode(error)
  if (code === null) return error
  if (fullCodes.has(code)) {
    return new StoreError('full', `No space is left to write ${place}. Nothing was changed; make room.`, { cause: error })
  }
  const mend = 'Check that the disk works and that this user may read and write there.'
  return new StoreError('unavailable', `${place} cannot be used (${code}). ${mend}`, { cause: error })
}

/** The system's code of a failed call, or null if the error is no failed call. */
export function readErrorCode(error: unknown): string | null {
  const code = error instanceof Error && 'code' in error ? error.code : null
  return typeof code === 'string' ? code : null
}
