import { readFileSync } from 'node:fs'
import { readLexicon } from '#src/content/lexicon.ts'
import { readMessage } from '#src/conversation/reading/read-message.ts'
const t0=performance.now()
const lex = readLexicon(readFileSync('/work/main/content/lexicon/en.yaml','utf8'),'x')
const t1=performance.now(); readMessage('4','pain',lex); const t2=performance.now()
console.log('read',t1-t0,'first',t2-t1)
for(const [n,s] of [['short','my arm went numb at 3'],['1k','no numbness, tingling or weakness and I feel fine. '.repeat(20)],['4k','no numbness, tingling or weakness and I feel fine. '.repeat(80)],['numb','numb '.repeat(800)],['no','no '.repeat(1300)],['8k','numb '.repeat(1600)],['a','a'.repeat(4096)],['nums','3 or '.repeat(800)],['my','my arm '.repeat(580)],['x','qwertyu zxcvbn '.repeat(270)],['fell','fell off a ladder '.repeat(220)],['fill','it nothing '.repeat(370)],['sickof','sick of '.repeat(500)]] as const){
 const a=performance.now(); for(const w of ['pain','control','reserve','yesno','nothing'] as const) readMessage(s,w,lex); console.log(n,s.length,((performance.now()-a)/5).toFixed(1))}
{const b=performance.now(); for(let i=0;i<500;i++) readMessage('my arm went numb at 3 and I feel a bit dizzy','pain',lex); console.log('warm', (performance.now()-b)/500)
const c=performance.now(); for(let i=0;i<500;i++) readMessage('4','pain',lex); console.log('warm4', (performance.now()-c)/500)}
