import { describe, expect, it } from 'vitest'
import { checkContent } from '#src/content/check-content.ts'
import { loadContent } from '#src/content/load-content.ts'
import { copyContent, smallLexicon, smallSuspicion } from '#tests/support/content-copy.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'

async function makeCopy() {
  return copyContent(await makeTemporaryFolder())
}

describe('checking the content', () => {
  it('lists each text that is asked for and missing, once and in every language', async () => {
    const copy = await makeCopy()
    copy.write('wording/nl/session.yaml', 'greeting: Hallo.')
    copy.write('lexicon/nl.yaml', smallLexicon('nl'))
    copy.write('suspicion/nl.json', smallSuspicion('nl'))
    const problems = checkContent(loadContent(copy.root), ['session.greeting', 'session.set.ask', 'session.set.ask', 'alerts.told'])
    expect(problems.filter(({ file }) => file.includes('wording'))).toEqual([
      { file: 'content/wording/en/alerts.yaml', line: 1, path: 'told', message: 'is missing', mend: 'Add the text.' },
      { file: 'content/wording/nl/session.yaml', line: 1, path: 'set.ask', message: 'is missing', mend: 'Add the text.' },
      { file: 'content/wording/nl/alerts.yaml', line: 1, path: 'told', message: 'is missing', mend: 'Add the text.' },
    ])
  })

  it('lists each exercise without words in a language', async () => {
    const copy = await makeCopy()
    copy.write('wording/nl/session.yaml', 'greeting: Hallo.')
    copy.write('lexicon/nl.yaml', smallLexicon('nl'))
    copy.write('suspicion/nl.json', smallSuspicion('nl'))
    const content = loadContent(copy.root)
    expect(checkContent(content, [])).toEqual(
      [...content.exercises.keys()].map((id) => ({
        file: `content/exercises/${id}.yaml`,
        line: 1,
        path: 'words.nl',
        message: 'is missing',
        mend: 'Add the words in this language.',
      })),
    )
  })

  it.each([
    {
      title: 'an exercise on no ladder',
      file: 'ladders/extension.yaml',
      from: ', seated-hold-one-hand]',
      to: ']',
      expected: ['exercises/seated-hold-one-hand.yaml', 'id', 'stands on no ladder', 'Put it on a rung or into a warm-up, or remove it.'],
    },
    {
      title: 'a group of the screen without a sign',
      file: 'triage.yaml',
      from: 'groups: [trauma,',
      to: 'groups: [falls, trauma,',
      expected: ['triage.yaml', 'groups', 'has the group falls, which holds no sign', 'Add its signs, or remove it.'],
    },
    {
      title: 'a condition against the bridge that closes nothing',
      file: 'exercises/supported-bridge.yaml',
      from: '[glaucoma, retinal-disease]',
      to: '[glaucoma]',
      expected: ['triage.yaml', 'gates.no_bridge', 'names retinal-disease, which rules out no exercise', 'Name it in the bridge exercise.'],
    },
  ])('lists $title', async ({ file, from, to, expected: [expectedFile, path, message, mend] }) => {
    const copy = await makeCopy()
    copy.replace(file, from, to)
    expect(checkContent(loadContent(copy.root), [])).toEqual([{ file: `content/${expectedFile}`, line: 1, path, message, mend }])
  })
})
