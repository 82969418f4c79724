import { readFileSync } from 'node:fs'
import { readLexicon } from '#src/content/lexicon.ts'
import { phraseBookOf } from '#src/conversation/reading/phrase-book.ts'
import { findPhrases } from '#src/conversation/reading/find-phrases.ts'
import { correctSlips } from '#src/conversation/reading/correct-slips.ts'
import { tokenise } from '#src/conversation/reading/token.ts'
import { markText } from '#src/conversation/reading/marked-text.ts'
import { certaintyOf } from '#src/conversation/reading/certainty.ts'
import { clauseBefore } from '#src/conversation/reading/clause-before.ts'
import { segmentsOf } from '#src/conversation/reading/segments.ts'
const lex = readLexicon(readFileSync('/work/main/content/lexicon/en.yaml','utf8'),'x')
const book = phraseBookOf(lex)
for(const t of process.argv.slice(2)){
 const f=findPhrases(correctSlips(tokenise(t,lex.spellings),book),book); const m=markText(f)
 console.log(f.tokens.map((k,i)=>i+':'+k.text).join(' '))
 for(const l of book.lists) for(const o of f.all(l.name)) if(!['filler','transparent','carrier','any-place','limb','body-part','thing','cannot','unit'].includes(l.name)) console.log('   ',l.name,o.form,o.start,o.end,JSON.stringify(o.gaps))
 for(const s of m.symptoms) console.log('  SYM',s.list,s.start,s.end,certaintyOf(s,m),JSON.stringify(clauseBefore(s,m)))
 console.log('  seg',segmentsOf(m).join(','),'places',m.places.map(p=>p.list+p.start).join(' '))
}
