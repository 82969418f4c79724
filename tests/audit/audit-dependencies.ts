// `npm run audit:dependencies`: known holes, age, number, licences and install scripts of everything that is depended on.
// It asks the package registry, so it is run by hand and never by CI. Exits with 1 where something has to be done, with 2 where
// the registry gave no answer: what was not asked is not fine.
import { execFile } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { promisify } from 'node:util'
import { daysBehind, lockedPackages, newestAllowed, readHoles, unacceptedLicences, unallowedScripts } from './judge-dependencies.ts'

interface Package {
  readonly dependencies: Readonly<Record<string, string>>
  readonly devDependencies: Readonly<Record<string, string>>
  readonly allowScripts: Readonly<Record<string, boolean>>
}

/** Our choice: a release older than that, with a newer one to be had, has missed its mends. */
const mostDaysBehind = 180
const atOnce = 4
/** Our choice: a registry that has said nothing by then gives no answer. */
const longestAnswerMs = 60_000

const { dependencies, devDependencies, allowScripts } = JSON.parse(readFileSync('package.json', 'utf8')) as Package
const packages = lockedPackages(JSON.parse(readFileSync('package-lock.json', 'utf8')) as Parameters<typeof lockedPackages>[0])
const toDo: string[] = []
const unanswered: string[] = []

/** What the package manager printed, whatever status it left with; empty where it printed nothing. */
async function ask(...args: readonly string[]): Promise<string> {
  try {
    return (await promisify(execFile)('npm', args, { maxBuffer: 64 * 1024 * 1024, timeout: longestAnswerMs })).stdout
  } catch (error) {
    return (error as { readonly stdout?: string }).stdout ?? ''
  }
}

async function askForHoles(): Promise<void> {
  const holes = readHoles(await ask('audit', '--json'))
  if (holes === null) return void unanswered.push('known holes: this registry answers no audit. Before a release run this again with one that does (npm_config_registry)')
  console.log(`known holes: ${holes.critical} critical, ${holes.high} high, ${holes.moderate} moderate, ${holes.low} low`)
  if (holes.critical + holes.high + holes.moderate > 0) toDo.push('close the known holes: npm audit')
}

async function askForAge([name, inUse]: readonly [string, string]): Promise<string> {
  try {
    const times = JSON.parse(await ask('view', name, 'time', '--json')) as Readonly<Record<string, string>>
    const newest = newestAllowed(name, Object.keys(times))
    if (newest === null && times[inUse] !== undefined) return `${name.padEnd(34)} ${inUse.padEnd(16)} ${'–'.padEnd(12)} has nothing but pre-releases`
    const [inUseAt, newestAt] = [times[inUse], newest === null ? undefined : times[newest]]
    if (newest === null || inUseAt === undefined || newestAt === undefined) throw new RangeError('not listed')
    const days = daysBehind(inUseAt, newestAt)
    if (days > mostDaysBehind) toDo.push(`bring ${name} on from ${inUse} to ${newest}, or say in heldBack why not`)
    return `${name.padEnd(34)} ${inUse.padEnd(16)} ${newest.padEnd(12)} ${days === 0 ? 'newest allowed' : `${days} days behind`}`
  } catch {
    unanswered.push(`age of ${name}`)
    return `${name.padEnd(34)} ${inUse.padEnd(16)} ${'?'.padEnd(12)} no answer`
  }
}

async function askForAges(direct: readonly (readonly [string, string])[]): Promise<readonly string[]> {
  const lines: string[] = []
  for (let from = 0; from < direct.length; from += atOnce) {
    const batch = direct.slice(from, from + atOnce)
    const before = unanswered.length
    lines.push(...(await Promise.all(batch.map(askForAge))))
    if (unanswered.length < before + batch.length) continue
    // A registry that says nothing to a whole batch is not waited for a minute a package.
    unanswered.push('age of all that follow: the registry does not answer. Check the network, and run this again')
    break
  }
  return lines
}

const direct = [...Object.entries(dependencies), ...Object.entries(devDependencies)]
console.log(`${Object.keys(dependencies).length} direct dependencies at run time, ${Object.keys(devDependencies).length} for development; ${packages.length - direct.length} transitive ones in the lock file`)
await askForHoles()
console.log((await askForAges(direct)).join('\n'))

const licences = new Map<string, number>()
for (const { licence } of packages) licences.set(licence, (licences.get(licence) ?? 0) + 1)
console.log(`licences: ${[...licences].toSorted((a, b) => b[1] - a[1]).map(([licence, count]) => `${licence} ${count}`).join(', ')}`)
toDo.push(...unacceptedLicences(packages).map((one) => `read the licence of ${one}`))
const scripts = packages.filter(({ hasInstallScript }) => hasInstallScript).map(({ name }) => name)
console.log(`run code while they are installed: ${scripts.join(', ') || 'none'}`)
toDo.push(...unallowedScripts(packages, allowScripts).map((name) => `judge the install script of ${name}, then name it in allowScripts or leave it`))

for (const line of toDo) console.error(`to do: ${line}`)
for (const line of unanswered) console.error(`not known: ${line}`)
process.exitCode = toDo.length > 0 ? 1 : unanswered.length > 0 ? 2 : 0
