// What a clinician signs: everything of the content that decides what is a warning sign, what follows, and what is said then.
import { createHash } from 'node:crypto'
import { thresholdAt, type ThresholdPath, type ThresholdValue } from '#src/domain/protocol.ts'
import type { Content } from './content.ts'
import { openContentFolder, type ContentFile } from './content-folder.ts'
import { ContentError, type Problem } from './problem.ts'
import { readYaml } from './yaml-source.ts'

export interface TriageMatter {
  readonly version: string
  /** `triage.yaml` as it stands, with its sources. */
  readonly triage: unknown
  /** By protocol, the thresholds on which levels and gates of the triage rest. */
  readonly thresholds: Readonly<Record<string, Readonly<Record<string, ThresholdValue>>>>
  /** By language, the texts of the triage by their whole key. */
  readonly wording: Readonly<Record<string, Readonly<Record<string, string>>>>
}

/** Wording files that are signed whole, and single texts of others. */
const signedFiles: readonly string[] = ['flag', 'symptom', 'signs', 'called', 'clearing', 'conditions']
const signedTexts: readonly string[] = ['session.screen', 'session.health-change', 'common.help', 'common.locked']

/** The files in which any of that stands. */
const namesSigned: ReadonlySet<string> = new Set([...signedFiles, ...signedTexts].map((key) => key.split('.')[0] ?? ''))

/** What a protocol decides of the levels in the triage content: a therapist may still set them for one client, in bounds. */
const signedThresholds: readonly ThresholdPath[] = [
  'pain.amberUpTo',
  'pain.endsSessionAbove',
  'pain.urgentFrom',
  'pain.urgentAboveUsualBy',
  'morning.badAboveUsualBy',
  'weekly.noProgressAboveUsualBy',
  'running.amber',
  'running.red',
  'running.badMornings',
  'absence.easeAfterDays',
  'supervision.noProgressAfterDays',
  'supervision.noSessionAfterDays',
  'lock.sessionsWithoutProgress',
  'silence.askAfterMinutes',
  'silence.pauseAfterMinutes',
]

/** Reads it from the folder that `content` was read from. Throws a {@link ContentError} where a file has become unreadable. */
export function readTriageMatter(root: string, content: Content): TriageMatter {
  const problems: Problem[] = []
  const folder = openContentFolder(root, problems)
  const valueOf = (file: ContentFile | null): unknown => {
    const reading = file && readYaml(file.text, file.file)
    if (reading?.kind === 'unreadable') problems.push(...reading.problems)
    return reading?.kind === 'read' ? reading.source.value : null
  }
  const triage = valueOf(folder.read('triage.yaml'))
  const wording = [...content.languages.keys()].map((language) => {
    const texts = folder.list(`wording/${language}`).filter(({ name }) => namesSigned.has(name)).flatMap((file) => textsIn(valueOf(file), file.name))
    return [language, Object.fromEntries(texts.filter(([key]) => isSigned(key)))] as const
  })
  if (problems.length > 0) throw new ContentError(problems)
  return { version: content.triage.version, triage, thresholds: thresholdsOf(content), wording: Object.fromEntries(wording) }
}

function thresholdsOf({ protocols }: Content): TriageMatter['thresholds'] {
  const of = (id: string) => signedThresholds.map((path) => [path, thresholdAt(protocols.get(id) ?? {}, path) ?? null])
  return Object.fromEntries([...protocols.keys()].map((id) => [id, Object.fromEntries(of(id)) as Readonly<Record<string, ThresholdValue>>]))
}

function textsIn(value: unknown, key: string): readonly (readonly [string, string])[] {
  if (typeof value === 'string') return [[key, value]]
  return Object.entries((value ?? {}) as object).flatMap(([name, inner]) => textsIn(inner, `${key}.${name}`))
}

function isSigned(key: string): boolean {
  return signedFiles.includes(key.split('.')[0] ?? '') || signedTexts.some((text) => key === text || key.startsWith(`${text}.`))
}

/** SHA-256 over the matter with every map in the order of its keys: the layout of a file does not count, its words do. */
export function digestOfMatter(matter: TriageMatter): string {
  return createHash('sha256').update(JSON.stringify(inOrder(matter)), 'utf8').digest('hex')
}

function inOrder(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inOrder)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, inner]) => [key, inOrder(inner)]))
}
