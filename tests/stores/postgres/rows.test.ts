import { expect, it } from 'vitest'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { plain } from '#src/stores/cipher.ts'
import { createRows } from '#src/stores/postgres/rows.ts'
import { documentId, makeTally } from '#tests/support/store-samples.ts'
import { makeCipher } from '#tests/support/data-keys.ts'

const chart = documentId('chart-1')
const tally = { ...makeTally(chart, 3), format: 2 }

it.each([['plain', plain], ['encrypted', makeCipher(1)]])('reads a text that it has just read or written no second time, and any other anew: %s', (_name, cipher) => {
  const rows = createRows(cipher, documentMigrations)
  const text = rows.document(tally)
  const other = createRows(cipher, documentMigrations).document({ ...tally, count: 4 } as typeof tally)

  const first = rows.readDocument(chart, text)
  expect(first).toEqual(tally)
  expect(rows.readDocument(chart, text)).toBe(first)
  // Another process has written meanwhile, or what was written was taken back.
  expect(rows.readDocument(chart, other)).toEqual({ ...tally, count: 4 })
  expect(rows.readDocument(chart, text)).toEqual(tally)
})

it('keeps what it remembers from later changes by whoever wrote or read it', () => {
  const rows = createRows(plain, documentMigrations)
  const own = { ...tally, inner: { text: 'before' } }
  const text = rows.document(own)
  own.inner.text = 'after'
  expect(rows.readDocument(chart, text)).toEqual({ ...tally, inner: { text: 'before' } })
  expect(Object.isFrozen(rows.readDocument(chart, text))).toBe(true)
})

it('asks of a document that is damaged nothing that it remembers', () => {
  const rows = createRows(plain, documentMigrations)
  const text = rows.document(tally)
  expect(() => rows.readDocument(chart, text.slice(1))).toThrow(/damaged/)
  expect(() => rows.readDocument(documentId('chart-2'), '{"kind":"chart"}')).toThrow(/damaged/)
})
