import { readFileSync } from 'node:fs'
import { isDeepStrictEqual } from 'node:util'
import { parse } from 'yaml'
const uniq=(v:any):any=>Array.isArray(v)?[...new Set(v)]:v&&typeof v==='object'?Object.fromEntries(Object.entries(v).map(([k,w])=>[k,uniq(w)])):v
console.log(isDeepStrictEqual(uniq(parse(readFileSync('/tmp/en.before.yaml','utf8'))),uniq(parse(readFileSync('content/lexicon/en.yaml','utf8')))))
