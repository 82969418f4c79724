import fc from 'fast-check'
import { play } from '../support/rehearsed.ts'
import { plans, anyScript } from './scripts.ts'
import { worsenings } from './worsen.ts'
import { compareHardness, workOf, describe } from './hardness.ts'
const seed = Number(process.argv[2] ?? 1), seconds = Number(process.argv[3] ?? 120), per = Number(process.argv[4]??8)
const until = Date.now() + seconds*1000
let n=0, viol=0
const kinds = new Map<string, any>()
const gaps1 = (process.env.MINGAP ? Number(process.env.MINGAP) : 1)
for (let i=0; Date.now()<until; i++) {
  const [p, s] = fc.sample(fc.tuple(fc.constantFrom(...plans), anyScript({mostGood: 14, most: 12})), { seed: seed*100000+i, numRuns: 1 })[0]!
  if (gaps1>1) { let shift=0, last=-9; s.sessions.forEach((x:any)=>{ if (x.day+shift-last<gaps1) shift += gaps1-(x.day+shift-last); x.day+=shift; last=x.day }) }
  let base: any
  try { base = play(p.plan, s) } catch (e) { console.log('THROW', e, p.name, JSON.stringify(s)); continue }
  const all = worsenings(s); const pick = fc.sample(fc.shuffledSubarray([...all], {minLength: Math.min(per, all.length), maxLength: Math.min(per, all.length)}), {seed: seed*7+i, numRuns:1})[0]!
  for (const w of pick) {
    n++
    const worse = play(p.plan, w.script)
    const sameToo = w.how.includes('pain before')
    for (let k=w.session + (sameToo?0:1); k<base.length; k++) {
      const [a,b]=[workOf(base[k]), workOf(worse[k])]
      if (process.env.BOTH && (a===null||b===null)) continue
      if (compareHardness(b,a)>0) {
        viol++
        const key = p.name+' | '+w.how.replace(/session \d+: /,'').replace(/\d+/g,'#')+ ' | '+(a===null?'missing':'present')
        const size = s.sessions.length
        const prev = kinds.get(key)
        if (!prev || prev.size>size) kinds.set(key,{size,p:p.name,how:w.how,k,a:describe(a),b:describe(b),script:s,worse:w.script, count:(prev?.count??0)+1}); else prev.count++
        break
      }
    }
  }
}
console.log('cases',n,'violations',viol)
const { writeFileSync } = await import('node:fs')
writeFileSync(`/tmp/h/viol-${seed}.json`, JSON.stringify([...kinds], null, 1))
for (const [key,v] of [...kinds].sort((a,b)=>b[1].count-a[1].count).slice(0,40)) console.log(v.count, v.size, key, '|', v.how, 'at', v.k, ':', v.a, '->', v.b)
