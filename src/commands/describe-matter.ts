// The whole of what a clinician signs, in plain text: every sign, gate, time, threshold and sentence, with its source.
import { stringify } from 'yaml'
import type { TriageMatter } from '#src/content/triage-matter.ts'

const lineWidth = 120

/** Lines to print; nothing of the matter is left out, so that what is signed is what was read. */
export function describeMatter({ version, triage, thresholds, wording }: TriageMatter): readonly string[] {
  const { signs, ...rest } = triage as { readonly signs: readonly Readonly<Record<string, string>>[] } & Readonly<Record<string, unknown>>
  return [
    `Triage content, version ${version}`,
    '',
    'SIGNS: level, name, group of the screen, source, further',
    ...signs.map(describeSign),
    '',
    'RULES: gates, times and what one sign makes of another',
    ...asText(rest),
    '',
    'THRESHOLDS of the protocols on which levels rest (a therapist may set them for one client, in bounds)',
    ...asText(thresholds),
    ...Object.entries(wording).flatMap(([language, texts]) => ['', `WORDING, ${language}`, ...Object.entries(texts).flatMap(describeText)]),
  ]
}

function describeSign({ level = '', id = '', group = '', source = '', ...others }: Readonly<Record<string, string>>): string {
  const further = Object.entries(others).map(([key, value]) => `; ${key}: ${String(value)}`)
  return `  ${level.padEnd(10)} ${id} (${group}) – ${source}${further.join('')}`
}

function describeText([key, text]: readonly [string, string]): readonly string[] {
  const [first = '', ...others] = text.split('\n')
  return [`  ${key}: ${first}`, ...others.map((line) => `    ${line}`)]
}

function asText(value: unknown): readonly string[] {
  return stringify(value, { lineWidth, flowCollectionPadding: true })
    .trimEnd()
    .split('\n')
    .map((line) => `  ${line}`)
}
