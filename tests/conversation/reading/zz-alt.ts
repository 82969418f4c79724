import { readFileSync } from 'node:fs'
import { parse } from 'yaml'
const y=parse(readFileSync('/work/main/content/lexicon/en.yaml','utf8'))
for(const sec of ['blocks','places','symptoms','cues','certainty','replies','commands']) for(const [k,v] of Object.entries(y[sec])){
 const items=Array.isArray(v)?v:[...((v as any).names??[]),...((v as any).says??[])]
 for(const t of items as string[]) if(/(^|\s)[^\s(]+\|[^\s()]+ [^\s(]+\|/.test(t)) console.log(k,'::',t)}
