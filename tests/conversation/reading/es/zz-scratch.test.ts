import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { it } from 'vitest'
import { messagesOf } from '../labelled/messages.ts'
import { printScore } from '../labelled/print-score.ts'
import { score } from '../labelled/score.ts'
import { readerOf } from '../reading-of.ts'
const { read } = readerOf('es')
it('prints', () => {
  const out: string[] = []
  for (const half of ['held-out', 'tuned'] as const)
    out.push(printScore(half, 'tuned', score(messagesOf('es', half), ({ text, awaiting }) => read(text, awaiting))))
  writeFileSync('/tmp/S/score.txt', out.join('\n'))
  if (!existsSync('/tmp/S/mine.txt')) return
  // "sign1|sign2\ttext" or "-\ttext" or "?sign\ttext"; "@pain=2\ttext"
  const bad: string[] = []
  let of = 0
  for (const line of readFileSync('/tmp/S/mine.txt', 'utf8').split('\n')) {
    if (line.trim() === '' || line.startsWith('#')) continue
    const at = line.indexOf(':')
    const [want, text] = [line.slice(0, at).trim(), line.slice(at + 1).trim()]
    of += 1
    if (want.startsWith('@')) {
      const [awaiting, value] = want.slice(1).split('=') as [never, string]
      const got = read(text, awaiting)
      if (String(got.value) !== value || got.redFlags.length + got.unsureFlags.length > 0) bad.push(`${want}: ${text}  -> ${got.value} ${got.redFlags.map((f) => f.sign)} ${got.unsureFlags.map((f) => f.sign + '?')}`)
      continue
    }
    const got = read(text, 'nothing')
    const sure = got.redFlags.map(({ sign }) => String(sign))
    const unsure = got.unsureFlags.map(({ sign }) => String(sign))
    const ok = want === '-' ? sure.length + unsure.length === 0
      : want === '-!' ? sure.length === 0
      : want.startsWith('?') ? want.slice(1).split('|').some((s) => unsure.includes(s) || sure.includes(s))
      : want.split('|').some((s) => sure.includes(s))
    if (!ok) bad.push(`${want}: ${text}  -> ${[...sure, ...unsure.map((s) => s + '?')].join(', ') || 'nothing'}`)
  }
  writeFileSync('/tmp/S/bad.txt', `${bad.length} of ${of}\n` + bad.join('\n') + '\n')
})
