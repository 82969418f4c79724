import { readFileSync, writeFileSync } from 'node:fs'
import { readLexicon } from '#src/content/lexicon.ts'
import { countSlips } from '#src/conversation/reading/correct-slips.ts'
import { phraseBookOf } from '#src/conversation/reading/phrase-book.ts'
const file='/work/main/content/lexicon/en.yaml'
const text=readFileSync(file,'utf8')
const lex = readLexicon(text,'x')
const book = phraseBookOf(lex)
const rude=new Set('sluts semen penes shoos assaults pissed cocked cocking suckling sucking fucking tits titted pricking'.split(' '))
const all = readFileSync('/tmp/reading-words/x/usr/share/dict/british-english-small','utf8').split('\n').filter(w=>/^[a-z]+$/.test(w)&&w.length>=4)
const out:string[]=[]
for(const w of all){ if(book.vocabulary.has(w)||lex.spellings.has(w)||rude.has(w)) continue
 if(book.correctable.some(t=>{const a=t.length>=9?2:1;return Math.abs(t.length-w.length)<=a&&countSlips(w,t)<=a})) out.push(w)}
const lines:string[]=[];let line=' '
for(const w of out){ if(line.length+w.length>124){lines.push(line);line=' '} line+=' '+w }
lines.push(line)
writeFileSync(file,text.slice(0,text.indexOf('\neveryday:')+1)+'everyday: >-\n'+lines.join('\n')+'\n')
console.log(book.correctable.length,out.length)
