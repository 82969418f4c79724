import { readFileSync } from 'node:fs'
import { it } from 'vitest'
import { readerOf } from '../reading-of.ts'
import { findPhrases } from '#src/conversation/reading/find-phrases.ts'
import { phraseBookOf } from '#src/conversation/reading/phrase-book.ts'
import { correctSlips } from '#src/conversation/reading/correct-slips.ts'
import { tokenise } from '#src/conversation/reading/token.ts'
import { markText } from '#src/conversation/reading/marked-text.ts'
import { certaintyOf } from '#src/conversation/reading/certainty.ts'
const { lexicon } = readerOf('es')
it('d', () => {
  const book = phraseBookOf(lexicon)
  for (const t of readFileSync('/tmp/S/dbg.txt', 'utf8').trim().split('\n')) {
    const found = findPhrases(correctSlips(tokenise(t, lexicon.spellings), book), book)
    const m = markText(found)
    console.log(t, '\n', found.tokens.map((x) => x.text).join(' '), '\n  SYM', m.symptoms.map((s) => `${s.list}[${s.start}-${s.end}]${certaintyOf(s, m)}`).join(' '), '\n  ', book.lists.flatMap((l) => found.all(l).map((o) => `${l}[${o.start}-${o.end}]`)).join(' '))
  }
})
