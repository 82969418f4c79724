import { readFileSync } from 'node:fs'
import { readLexicon } from '#src/content/lexicon.ts'
import { readMessage } from '#src/conversation/reading/read-message.ts'
const lex = readLexicon(readFileSync('/work/main/content/lexicon/en.yaml','utf8'),'content/lexicon/en.yaml')
const [a, ...t] = process.argv.slice(2)
for (const x of t) console.log(x, '=>', JSON.stringify(readMessage(x, a as any, lex)))
