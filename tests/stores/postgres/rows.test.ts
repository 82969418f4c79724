import { expect, it } from 'vitest'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { plain } from '#src/stores/cipher.ts'
import { createRows } from '#src/stores/postgres/rows.ts'
import { documentId, makeTally } from '#tests/support/store-samples.ts'
import { makeCipher } from '#tests/support/data-keys.ts'

const chart = documentId('chart-1')
const tally = { ...makeTally(chart, 3), format: 2 }

it.each([['plain', plain], ['encrypted', makeCipher(1)]])('reads what was written, and lets nobody change it: %s', (_name, cipher) => {
  const rows = createRows(cipher, documentMigrations)
  const read = rows.readDocument(chart, rows.document(tally))

  expect(read).toEqual(tally)
  expect(Object.isFrozen(read)).toBe(true)
})

it('refuses a document that is damaged', () => {
  const rows = createRows(plain, documentMigrations)
  const text = rows.document(tally)
  expect(() => rows.readDocument(chart, text.slice(1))).toThrow(/damaged/)
  expect(() => rows.readDocument(documentId('chart-2'), '{"kind":"chart"}')).toThrow(/damaged/)
})
