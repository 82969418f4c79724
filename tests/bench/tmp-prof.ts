import { readFileSync } from 'node:fs'
import { flows } from '#flows/registry.ts'
import { createStep } from '#src/chart/step.ts'
import { loadContent } from '#src/content/load-content.ts'
import { readPlan } from '#src/content/read-plan.ts'
import { inventClients } from '#src/commands/rehearse/invent-clients.ts'
import { rehearseInvented } from '#src/commands/rehearse/rehearse-plan.ts'
const path = 'content/plans/all-directions.yaml'
const content = loadContent('content')
const plan = readPlan(readFileSync(path, 'utf8'), path, content)
const real = createStep(content, flows)
let n = 0; const kinds: Record<string, [number, number]> = {}
const step = (d: any, e: any, a: any) => { n++; const t = process.hrtime.bigint(); const r = real(d, e, a); const k = e.kind + (e.kind === 'message' || e.kind === 'press' ? ' ' + d.conversations?.at(-1)?.flow + '.' + d.conversations?.at(-1)?.state : ''); const x = (kinds[k] ??= [0, 0]); x[0]++; x[1] += Number(process.hrtime.bigint() - t) / 1000; return r }
const t0 = process.cpuUsage()
for (const { attendances } of inventClients(plan, content, { count: 12, seed: 1, weeks: 12, kind: null })) JSON.stringify(rehearseInvented(plan, attendances, step as any, content))
console.log(n / 12, (process.cpuUsage(t0).user) / 12000)
console.log(Object.entries(kinds).sort((a, b) => b[1][1] - a[1][1]).slice(0, 14).map(([k, [c, t]]) => `${k} ${c} ${(t / 12000).toFixed(1)}ms/client ${(t / c).toFixed(0)}us`).join('\n'))
