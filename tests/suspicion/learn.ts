// npm run learn: weighs the clues of every language anew, into content/suspicion.
import { writeFileSync } from 'node:fs'
import { languages } from '#tests/conversation/reading/labelled/messages.ts'
import { learnLanguage } from './learn-language.ts'

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`

for (const language of languages) {
  const { file, messages, clues, suspected, askedInVain } = learnLanguage(language)
  writeFileSync(new URL(`../../content/suspicion/${language}.json`, import.meta.url), file)
  process.stdout.write(
    `${language}: ${clues} clues from ${messages} messages; of those left out, suspected ${percent(suspected)} with a sign, ${percent(askedInVain)} without\n`,
  )
}
