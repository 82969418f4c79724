import type { IntlMessageFormat } from 'intl-messageformat'
import { directionsOf } from '#src/domain/direction.ts'
import type { ExerciseId } from '#src/domain/identifier.ts'
import type { ContentFolder } from './content-folder.ts'
import type { Language } from './content.ts'
import type { ExerciseFile } from './exercise-schema.ts'
import { flattenWording } from './flatten-wording.ts'
import { LexiconError, readLexicon, type Lexicon } from './lexicon.ts'
import type { Problem } from './problem.ts'
import type { Sourced } from './read-shaped.ts'
import { fillSides, type SidedWords, type SideFault } from './sided-words.ts'
import { readSuspicion, type Suspicion } from './suspicion.ts'
import { createWords } from './words.ts'
import { readYaml } from './yaml-source.ts'

/** One language for each folder under `wording`; each needs a lexicon of the same name. */
export function loadLanguages(
  folder: ContentFolder,
  exercises: readonly Sourced<ExerciseFile>[],
  problems: Problem[],
): ReadonlyMap<string, Language> {
  const names = folder.folders('wording').filter((name) => isLanguage(name, folder))
  problems.push(...strayWords(exercises, names))
  const languages = names.map((language): [string, Language | null] => {
    const messages = loadMessages(folder, language, problems)
    const lexicon = loadLexicon(folder, language, problems)
    const words = createWords({ language, messages, exercises: wordsIn(language, exercises, problems) })
    return [language, lexicon === null ? null : { words, lexicon }]
  })
  return new Map(languages.filter((entry): entry is [string, Language] => entry[1] !== null))
}

function isLanguage(name: string, folder: ContentFolder): boolean {
  try {
    if (Intl.getCanonicalLocales(name)[0] === name) return true
  } catch {
    // Refused below, as is a tag in another spelling.
  }
  const mend = 'Name it after a language tag such as en or pt-BR (BCP 47).'
  folder.refuse(`wording/${name}`, 'is named after no language', mend)
  return false
}

function loadMessages(
  folder: ContentFolder,
  language: string,
  problems: Problem[],
): ReadonlyMap<string, IntlMessageFormat> {
  const files = folder.list(`wording/${language}`)
  const messages = new Map<string, IntlMessageFormat>()
  for (const { name, file, text } of files) {
    const reading = readYaml(text, file)
    if (reading.kind === 'unreadable') {
      problems.push(...reading.problems)
      continue
    }
    const wording = flattenWording(name, language, reading.source)
    problems.push(...wording.problems)
    for (const [key, message] of wording.messages) messages.set(key, message)
  }
  return messages
}

function loadLexicon(folder: ContentFolder, language: string, problems: Problem[]): Lexicon | null {
  const file = folder.read(`lexicon/${language}.yaml`)
  const suspicion = loadSuspicion(folder, language, problems)
  if (file === null || suspicion === null) return null
  try {
    const lexicon = readLexicon(file.text, file.file, suspicion)
    if (lexicon.language === language) return lexicon
    const mend = `Write language: ${language}.`
    folder.refuse(`lexicon/${language}.yaml`, 'is of another language than its file is named after', mend)
    return null
  } catch (error) {
    if (!(error instanceof LexiconError)) throw error
    problems.push(...error.problems)
    return null
  }
}

function loadSuspicion(folder: ContentFolder, language: string, problems: Problem[]): Suspicion | null {
  const file = folder.read(`suspicion/${language}.json`)
  if (file === null) return null
  const reading = readSuspicion(file.text, file.file, language)
  if (reading.kind === 'read') return reading.suspicion
  problems.push(reading.problem)
  return null
}

function wordsIn(
  language: string,
  exercises: readonly Sourced<ExerciseFile>[],
  problems: Problem[],
): ReadonlyMap<ExerciseId, SidedWords> {
  const entries = exercises.flatMap(({ value, source }): [ExerciseId, SidedWords][] => {
    const words = value.words.get(language)
    if (words === undefined) return []
    const filled = fillSides(words, language, directionsOf(value.exercise.ladder).length > 1)
    if (typeof filled !== 'string') return [[value.exercise.id, filled]]
    problems.push(source.problem(['words', language], ...sideFaults[filled]))
    return []
  })
  return new Map(entries)
}

const sideFaults: Record<SideFault, [message: string, mend: string]> = {
  syntax: ['holds a text that cannot be filled in', 'Use {side} and {other}, and check the braces.'],
  'side-in-name': ['says a side in the name', 'Leave {side} out of the name; the short name may say it.'],
  'side-without-sides': ['says a side, but its ladder has none', 'Remove {side} and {other}.'],
}

/** Words of an exercise in a language that has no wording would never be shown. */
function strayWords(exercises: readonly Sourced<ExerciseFile>[], languages: readonly string[]): readonly Problem[] {
  return exercises.flatMap(({ value, source }) =>
    [...value.words.keys()]
      .filter((language) => !languages.includes(language))
      .map((language) => {
        const mend = `Add content/wording/${language}, or remove these words.`
        return source.problem(['words', language], 'is a language without wording', mend)
      }),
  )
}
