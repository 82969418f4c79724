import type { Content, Language } from '#src/content/content.ts'

/** A language, or the first one there is, which is the clinic's. */
export function languageOf({ languages }: Content, name = ''): Language {
  const found = languages.get(name) ?? languages.values().next().value
  if (found === undefined) throw new RangeError('no language in the content')
  return found
}
