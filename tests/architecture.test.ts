import { execFile } from 'node:child_process'
import { promisify } from 'node:util'
import { describe, expect, it } from 'vitest'

interface Cruised {
  readonly summary: { readonly violations: readonly { readonly rule: { readonly name: string } }[] }
  readonly modules: readonly { readonly source: string; readonly dependencies: readonly { readonly resolved: string }[] }[]
}

async function cruise(...folders: readonly string[]): Promise<Cruised> {
  const args = ['--config', '.dependency-cruiser.mjs', '--output-type', 'json', ...folders]
  // With violations the command exits with their number; what it found is on standard output either way.
  const { stdout } = await promisify(execFile)('node_modules/.bin/depcruise', args, { maxBuffer: 64 * 1024 * 1024 })
  return JSON.parse(stdout) as Cruised
}

describe('the arrows between the rooms', () => {
  it('are looked at in every module, type-only imports included, and point one way', { timeout: 120_000 }, async () => {
    const { summary, modules } = await cruise('src', 'flows')
    const ours = modules.filter(({ source }) => /^(src|flows)\//.test(source))
    const settle = modules.find(({ source }) => source === 'src/rules/settle.ts')
    expect(summary.violations).toEqual([])
    // A tool that reads no TypeScript finds no violation either.
    expect(ours.length).toBeGreaterThan(200)
    // Settling takes the chain for its type only.
    expect(settle?.dependencies.map(({ resolved }) => resolved)).toContain('src/domain/chain.ts')
  })
})
