// The steps by which the documents of earlier versions become those of this one, for whichever store keeps them.
import type { Migration } from '#src/ports/migration.ts'
import { toFormat2 } from './migrations/to-format-2.ts'

/** By hand, in order, without gaps: 2, 3, 4… Version 0.1.0 stored format 1; a released step is never changed. */
export const documentMigrations: readonly Migration[] = [toFormat2]
