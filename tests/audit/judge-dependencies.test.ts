import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { daysBehind, heldBack, lockedPackages, newestAllowed, readHoles, unacceptedLicences, unallowedScripts } from './judge-dependencies.ts'

const own = JSON.parse(readFileSync('package.json', 'utf8')) as {
  readonly dependencies: Readonly<Record<string, string>>
  readonly devDependencies: Readonly<Record<string, string>>
  readonly allowScripts: Readonly<Record<string, boolean>>
}
const packages = lockedPackages(JSON.parse(readFileSync('package-lock.json', 'utf8')) as Parameters<typeof lockedPackages>[0])

describe('what is depended on', () => {
  it('has licences that somebody has read', () => {
    expect(packages.length).toBeGreaterThan(100)
    expect(unacceptedLicences(packages)).toEqual([])
    expect(unacceptedLicences([{ name: 'x', licence: 'SSPL-1.0', hasInstallScript: false }])).toEqual(['x: SSPL-1.0'])
  })

  it('runs no code while it is installed but what is allowed by name', () => {
    expect(unallowedScripts(packages, own.allowScripts)).toEqual([])
    expect(unallowedScripts([{ name: 'x', licence: 'MIT', hasInstallScript: true }], own.allowScripts)).toEqual(['x'])
  })

  it('is named with its exact version, and is of the line that is held back where one is', () => {
    const direct = Object.entries({ ...own.dependencies, ...own.devDependencies })
    expect(direct.filter(([, version]) => !/^\d+\.\d+\.\d+(-[\w.]+)?$/.test(version))).toEqual([])
    const held = direct.filter(([name, version]) => heldBack[name] !== undefined && newestAllowed(name, [version]) === null)
    expect(held).toEqual([])
    expect(Object.keys(heldBack).filter((name) => direct.every(([one]) => one !== name))).toEqual([])
  })
})

describe('the newest that is allowed', () => {
  it.each([
    ['anything', ['1.9.0', '1.10.0', '2.0.0-beta.1', 'created'], '1.10.0'],
    ['commander', ['14.0.3', '14.1.0', '15.0.0', '140.0.0'], '14.1.0'],
    ['nock', ['13.5.6', '13.5.60', '14.0.1'], '13.5.6'],
    ['commander', ['15.0.0'], null],
  ] as const)('of %s among %j is %s', (name, versions, newest) => {
    expect(newestAllowed(name, versions)).toBe(newest)
  })

  it('is so many days younger', () => {
    expect(daysBehind('2026-01-01T12:00:00Z', '2026-01-11T13:00:00Z')).toBe(10)
    expect(daysBehind('2026-01-11T12:00:00Z', '2026-01-01T12:00:00Z')).toBe(0)
  })
})

describe('the count of known holes', () => {
  it('is not known where there was no answer', () => {
    expect(readHoles('{"message":"405 Method Not Allowed","statusCode":405}')).toBeNull()
    expect(readHoles('')).toBeNull()
    const vulnerabilities = { info: 0, low: 1, moderate: 2, high: 3, critical: 4, total: 10 }
    expect(readHoles(JSON.stringify({ metadata: { vulnerabilities } }))).toEqual({ low: 1, moderate: 2, high: 3, critical: 4 })
  })
})
