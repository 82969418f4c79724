import { execFile } from 'node:child_process'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { describe, expect, it } from 'vitest'
import { describeCrash } from '#src/commands/describe-crash.ts'
import { pathOf, translator } from '#tests/support/built-product.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))

/** `main` in a process of its own in which something of ours fails behind everybody's back. */
function runWith(mistake: string): Promise<{ readonly status: number | null; readonly err: string }> {
  const code = `await import('${pathToFileURL(pathOf('main')).href}'); ${mistake}; setInterval(() => undefined, 1000)`
  return new Promise((resolve) => {
    const child = execFile(process.execPath, [...translator(), '--input-type=module', '--eval', code, '--', 'script', 'read', 'a', '--awaiting', 'pain'], { cwd: root }, (_error, _out, err) =>
      resolve({ status: child.exitCode, err }),
    )
  })
}

describe('a mistake that nobody foresaw', () => {
  const line = (name: string): string => `Nuchal stopped because of a mistake of its own (${name}). Nothing that was confirmed is lost; start it again.`

  it.each<readonly [unknown, string]>([
    [new RangeError('my arm is numb'), line('RangeError')],
    [Object.assign(new Error('my arm is numb'), { code: 'EIO' }), line('Error, EIO')],
    [Object.assign(new Error('x'), { name: 'my arm is numb', code: 'my arm' }), line('unknown')],
    ['my arm is numb', line('unknown')],
  ])('is told by class and code alone: %#', (error, told) => {
    expect(describeCrash(error)).toBe(told)
  })

  it.each<readonly [string, string, string]>([
    ['thrown', `setTimeout(() => { throw new RangeError('my arm is numb') })`, 'RangeError'],
    ['a rejection that nobody handles', `void Promise.reject(Object.assign(new TypeError('my arm is numb'), { code: 'E_ARM' }))`, 'TypeError, E_ARM'],
  ])('ends the process with 1 and that one line, %s', async (_, mistake, named) => {
    expect(await runWith(mistake)).toEqual({ status: 1, err: `${line(named)}\n` })
  }, 60_000)
})
