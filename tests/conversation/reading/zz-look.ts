import { readFileSync } from 'node:fs'
import { english, read } from './reading-of.ts'
const a=process.argv[2] as any
for(const l of readFileSync(0,'utf8').split('\n').filter(Boolean)){const r=read(l,a);console.log(l.padEnd(58),'|',String(r.value),'|',r.redFlags.map(f=>f.sign).join(','),'| ?',r.unsureFlags.map(f=>f.sign).join(','),r.stop?'STOP':'',r.command??'',r.isCorrection?'CORR':'')}
