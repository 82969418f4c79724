import { readFileSync } from 'node:fs'
import { parse } from 'yaml'
import { parsePhrase } from '#src/content/lexicon-phrase.ts'
import { readLexicon } from '#src/content/lexicon.ts'
import { phraseBookOf } from '#src/conversation/reading/phrase-book.ts'
const text=readFileSync('/work/main/content/lexicon/en.yaml','utf8')
const y=parse(text)
for(const sec of ['blocks','places','symptoms','cues','certainty','replies','commands']) for(const [k,v] of Object.entries(y[sec])){
 const items=Array.isArray(v)?v:[...((v as any).names??[]),...((v as any).says??[])]
 for(const t of items as string[]){const p=parsePhrase(t)!; const req=p.filter(q=>q.kind!=='gap'&&!q.isOptional)
  if(req.length===1&&p.length>1) console.log(k,'::',t)}}
const b=phraseBookOf(readLexicon(text,'x'))
console.log(b.lists.reduce((n,l)=>n+l.phrases.length,0))
console.log(b.lists.map(l=>[l.name,l.phrases.length] as const).sort((a,c)=>c[1]-a[1]).slice(0,15).join(' '))
