// What is said of dependencies, apart from asking the network: versions that are allowed, licences, install scripts.

/** Held back on purpose; the reasons stand in DEVELOPERS.md and the house style. Everything else may be the newest. */
export const heldBack: Readonly<Record<string, string>> = {
  '@types/node': '20',
  commander: '14',
  nock: '13.5.6',
  'pg-boss': '10',
  typescript: '6',
  vitest: '4',
  // The next lines ask for Node 22.
  '@stryker-mutator/core': '9',
  '@stryker-mutator/vitest-runner': '9',
  'dependency-cruiser': '17',
  'write-file-atomic': '7',
}

/** Licences that ask for no more than their text beside the work (our choice); MPL-2.0 and CC-BY-4.0 stand in tools only. */
export const acceptedLicences: readonly string[] = [
  '(MIT OR CC0-1.0)', '0BSD', 'Apache-2.0', 'BSD-2-Clause', 'BSD-3-Clause', 'BlueOak-1.0.0', 'CC-BY-4.0', 'ISC', 'MIT', 'MPL-2.0', 'Python-2.0',
]

/** Read by a person, since the registry's field does not say: free fonts (Bitstream Vera) and their Arev letters. */
export const licencesReadByHand: readonly string[] = ['dejavu-fonts-ttf']

export interface LockedPackage {
  readonly name: string
  readonly licence: string
  readonly hasInstallScript: boolean
}

type Version = readonly [major: number, minor: number, patch: number]

/** Null for anything but a plain release: what comes before one is never the newest. */
function versionOf(text: string): Version | null {
  const [, ...parts] = /^(\d+)\.(\d+)\.(\d+)$/.exec(text) ?? []
  return parts.length === 3 ? [Number(parts[0]), Number(parts[1]), Number(parts[2])] : null
}

function compare(one: Version, other: Version): number {
  return one[0] - other[0] || one[1] - other[1] || one[2] - other[2]
}

/** The newest release that is allowed of all those given; null where there is none. */
export function newestAllowed(name: string, versions: readonly string[]): string | null {
  const held = heldBack[name]
  const isAllowed = (text: string): boolean => held === undefined || text === held || text.startsWith(`${held}.`)
  const releases = versions.filter(isAllowed).flatMap((text) => {
    const version = versionOf(text)
    return version === null ? [] : [{ text, version }]
  })
  return releases.toSorted((a, b) => compare(b.version, a.version))[0]?.text ?? null
}

/** Whole days that the version in use is older than the newest allowed; 0 where it is that one, or newer. */
export function daysBehind(inUseAt: string, newestAt: string): number {
  return Math.max(0, Math.floor((Date.parse(newestAt) - Date.parse(inUseAt)) / 86_400_000))
}

interface Lock {
  readonly packages: Readonly<Record<string, { readonly license?: string; readonly hasInstallScript?: boolean }>>
}

/** Every package of the lock file but our own. */
export function lockedPackages(lock: Lock): readonly LockedPackage[] {
  return Object.entries(lock.packages)
    .filter(([path]) => path !== '')
    .map(([path, { license = 'none named', hasInstallScript = false }]) => ({
      name: path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length),
      licence: license,
      hasInstallScript,
    }))
}

export function unacceptedLicences(packages: readonly LockedPackage[]): readonly string[] {
  return packages
    .filter(({ name, licence }) => !acceptedLicences.includes(licence) && !licencesReadByHand.includes(name))
    .map(({ name, licence }) => `${name}: ${licence}`)
}

/** Packages whose code runs while they are installed, though nobody has allowed it. */
export function unallowedScripts(packages: readonly LockedPackage[], allowed: Readonly<Record<string, boolean>>): readonly string[] {
  return packages.filter(({ name, hasInstallScript }) => hasInstallScript && allowed[name] !== true).map(({ name }) => name)
}

export interface Holes {
  readonly low: number
  readonly moderate: number
  readonly high: number
  readonly critical: number
}

/** What the package manager's audit printed; null where it had no answer, which is no good news. */
export function readHoles(printed: string): Holes | null {
  try {
    const { metadata } = JSON.parse(printed) as { readonly metadata?: { readonly vulnerabilities?: Holes } }
    const { low, moderate, high, critical } = metadata?.vulnerabilities ?? {}
    const counts = [low, moderate, high, critical]
    return counts.every((count) => typeof count === 'number') ? ({ low, moderate, high, critical } as Holes) : null
  } catch {
    return null
  }
}
