import { describe, expect, it } from 'vitest'
import { loadContent } from '#src/content/load-content.ts'
import type { Problem } from '#src/content/problem.ts'
import { copyContent, smallLexicon, type ContentCopy } from '#tests/support/content-copy.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'

async function makeCopy(): Promise<ContentCopy> {
  return copyContent(await makeTemporaryFolder())
}

interface Mistake {
  readonly title: string
  readonly file: string
  readonly from: string
  readonly to: string
  /** Where the problem is shown, if not where the changed text begins. */
  readonly at?: string
  readonly path: string
  readonly message: string
  readonly mend: string
}

const mistakes: readonly Mistake[] = [
  {
    title: 'a tab for indentation', file: 'ladders/extension.yaml',
    from: 'rungs:\n',
    to: 'rungs:\n\t- x\n', at: '\t- x',
    path: '', message: 'is not valid YAML: Tabs are not allowed as indentation',
    mend: 'Look at the indentation, colons, quotes and brackets of this line and the one above.',
  },
  {
    title: 'a key that stands twice', file: 'exercises/seated-band.yaml',
    from: 'rest_s: 90',
    to: 'sets: 90',
    path: '', message: 'is not valid YAML: Map keys must be unique',
    mend: 'Look at the indentation, colons, quotes and brackets of this line and the one above.',
  },
  {
    title: 'an unknown key', file: 'exercises/seated-band.yaml',
    from: 'silence_told: false',
    to: 'silence_told: false\ncolour: none', at: 'colour: none',
    path: 'colour', message: 'is no known key here',
    mend: 'Remove it, or mend its spelling.',
  },
  {
    title: 'a text for a number', file: 'exercises/seated-band.yaml',
    from: 'rest_s: 90',
    to: 'rest_s: ninety',
    path: 'rest_s', message: 'must be a number',
    mend: 'Write a plain number, without quotes and without a unit.',
  },
  {
    title: 'a fraction for a whole number', file: 'exercises/seated-band.yaml',
    from: 'sets: 3',
    to: 'sets: 2.5',
    path: 'sets', message: 'must be a whole number',
    mend: 'Write a whole number, without quotes and without a unit.',
  },
  {
    title: 'a text for a truth value', file: 'exercises/seated-band.yaml',
    from: 'loaded: true',
    to: 'loaded: yes',
    path: 'loaded', message: 'must be true or false',
    mend: 'Write true or false, without quotes.',
  },
  {
    title: 'a number for a text', file: 'exercises/seated-band.yaml',
    from: 'short: band pull',
    to: 'short: 3',
    path: 'words.en.short', message: 'must be text',
    mend: 'Put it in quotes.',
  },
  {
    title: 'a text for a list', file: 'exercises/seated-band.yaml',
    from: 'equipment: [band]',
    to: 'equipment: band',
    path: 'equipment', message: 'must be a list',
    mend: 'Write a list: [a, b], or one item a line after a dash.',
  },
  {
    title: 'an empty list', file: 'exercises/seated-band.yaml',
    from: 'range: [8, 10, 12]',
    to: 'range: []',
    path: 'work.range', message: 'must have at least 1 entry',
    mend: 'Add what is missing.',
  },
  {
    title: 'an unknown choice', file: 'exercises/seated-band.yaml',
    from: 'direction: extension',
    to: 'direction: backward',
    path: 'direction', message: 'is not one of the values known here',
    mend: 'Use one of: extension, flexion, lateral-flexion-left, lateral-flexion-right, rotation-left, rotation-right, deep-flexors.',
  },
  {
    title: 'an unknown kind of work', file: 'exercises/seated-band.yaml',
    from: 'kind: repetitions',
    to: 'kind: swings',
    path: 'work.kind', message: 'is not one of the values known here',
    mend: 'Use one of: holds, repetitions.',
  },
  {
    title: 'a hold above ten seconds', file: 'exercises/seated-hold-two-hands.yaml',
    from: 'entry: { reps: 5, hold_s: 5, push: 3 }',
    to: 'entry: { reps: 5, hold_s: 11, push: 3 }',
    path: 'work.entry.hold_s', message: 'must be at most 10',
    mend: 'Lower it to 10 or less.',
  },
  {
    title: 'a hold that does not climb', file: 'exercises/seated-hold-two-hands.yaml',
    from: '{ reps: 5, hold_s: 8, push: 3 }',
    to: '{ reps: 5, hold_s: 6, push: 3 }', at: 'work:',
    path: 'work', message: 'does not climb',
    mend: 'Order below, entry and above so that push, then hold, then repetitions only rise; all with a push or none.',
  },
  {
    title: 'a hold without a push among others', file: 'exercises/seated-hold-two-hands.yaml',
    from: '{ reps: 5, hold_s: 2, push: 3 }',
    to: '{ reps: 5, hold_s: 2, push: null }', at: 'work:',
    path: 'work', message: 'does not climb',
    mend: 'Order below, entry and above so that push, then hold, then repetitions only rise; all with a push or none.',
  },
  {
    title: 'repetitions that do not climb', file: 'exercises/seated-band.yaml',
    from: 'beyond: [14, 16]',
    to: 'beyond: [12, 16]', at: 'work:',
    path: 'work', message: 'does not climb',
    mend: 'Order below, range and beyond so that the repetitions only rise.',
  },
  {
    title: 'an entry that stands twice', file: 'exercises/supported-bridge.yaml',
    from: 'contraindications: [glaucoma, retinal-disease]',
    to: 'contraindications: [glaucoma, glaucoma]',
    path: 'ruled_out_by.contraindications', message: 'has an entry twice',
    mend: 'Remove the second one.',
  },
  {
    title: 'an unknown restriction', file: 'exercises/supported-bridge.yaml',
    from: 'restrictions: [floor-transfer-limited',
    to: 'restrictions: [no-floor, floor-transfer-limited',
    path: 'ruled_out_by.restrictions[0]', message: 'is not known in content/restrictions.yaml',
    mend: 'Use one of: shoulder-left-limited, shoulder-right-limited, hands-to-head-limited, floor-transfer-limited, no-load-through-head; or add it to content/restrictions.yaml.',
  },
  {
    title: 'an id that is not the file\'s name', file: 'exercises/seated-band.yaml',
    from: 'id: seated-band',
    to: 'id: seated-bands',
    path: 'id', message: 'is not the name of its file',
    mend: 'Write seated-band, or rename the file.',
  },
  {
    title: 'an id in another spelling', file: 'exercises/seated-band.yaml',
    from: 'id: seated-band',
    to: 'id: Seated Band',
    path: 'id', message: 'must be an id',
    mend: 'Use lower-case letters, digits and single hyphens.',
  },
  {
    title: 'a harness without approval', file: 'exercises/seated-harness.yaml',
    from: 'needs_approval_to_enter: true',
    to: 'needs_approval_to_enter: false',
    path: 'needs_approval_to_enter', message: 'must be true for a harness',
    mend: 'Write needs_approval_to_enter: true.',
  },
  {
    title: 'a band that needs no band', file: 'exercises/seated-band.yaml',
    from: 'equipment: [band]',
    to: 'equipment: [step]',
    path: 'equipment', message: 'must name the band',
    mend: 'Add band to the list.',
  },
  {
    title: 'an unloaded harness', file: 'exercises/seated-harness.yaml',
    from: 'loaded: true',
    to: 'loaded: false',
    path: 'loaded', message: 'must be true for a harness',
    mend: 'Write loaded: true.',
  },
  {
    title: 'words in a language without wording', file: 'exercises/seated-band.yaml',
    from: '  en:',
    to: '  fr:',
    path: 'words.fr', message: 'is a language without wording',
    mend: 'Add content/wording/fr, or remove these words.',
  },
  {
    title: 'an exercise that does not exist', file: 'ladders/extension.yaml',
    from: 'exercises: [seated-band]',
    to: 'exercises: [seated-rope]',
    path: 'rungs[2].exercises[0]', message: 'names an exercise that does not exist',
    mend: 'Add content/exercises/seated-rope.yaml, or mend the spelling.',
  },
  {
    title: 'an exercise of another direction', file: 'ladders/extension.yaml',
    from: 'exercises: [seated-band]',
    to: 'exercises: [deep-flexor-activation]',
    path: 'rungs[2].exercises[0]', message: 'names an exercise of deep-flexors',
    mend: 'Name one of extension.',
  },
  {
    title: 'a warm-up that does not exist', file: 'ladders/extension.yaml',
    from: 'exercise: easy-neck-turns',
    to: 'exercise: easy-turns',
    path: 'warm_up[1].exercise', message: 'names an exercise that does not exist',
    mend: 'Add content/exercises/easy-turns.yaml, or mend the spelling.',
  },
  {
    title: 'a rung out of order', file: 'ladders/extension.yaml',
    from: 'rung: 4',
    to: 'rung: 5',
    path: 'rungs[3].rung', message: 'must be 4',
    mend: 'Number the rungs 1, 2, 3 and so on, easiest first.',
  },
  {
    title: 'an empty rung', file: 'ladders/extension.yaml',
    from: 'exercises: [seated-band]',
    to: 'exercises: []',
    path: 'rungs[2].exercises', message: 'must name an exercise',
    mend: 'Add one, or remove the rung.',
  },
  {
    title: 'a threshold without a source', file: 'protocols/novice.yaml',
    from: 'ends_session_above: { value: 7, source: our choice }',
    to: 'ends_session_above: { value: 7 }',
    path: 'pain.ends_session_above.source', message: 'is missing',
    mend: 'Add it: text.',
  },
  {
    title: 'a bare threshold', file: 'protocols/novice.yaml',
    from: 'ends_session_above: { value: 7, source: our choice }',
    to: 'ends_session_above: 7',
    path: 'pain.ends_session_above', message: 'must be a group of named values',
    mend: 'Write a group of named values.',
  },
  {
    title: 'a threshold past its hard bound', file: 'protocols/novice.yaml',
    from: 'ceiling: { value: 0.45',
    to: 'ceiling: { value: 0.76',
    path: 'maximum.ceiling.value', message: 'must be at most 0.75',
    mend: 'Lower it to 0.75 or less.',
  },
  {
    title: 'a threshold below its hard bound', file: 'protocols/novice.yaml',
    from: 'sessions: { value: 6',
    to: 'sessions: { value: 2',
    path: 'loaded_rung.sessions.value', message: 'must be at least 3',
    mend: 'Raise it to 3 or more.',
  },
  {
    title: 'thresholds in the wrong order', file: 'protocols/novice.yaml',
    from: 'far_above: { value: 0.25',
    to: 'far_above: { value: 0.1',
    path: 'load_step.far_above', message: 'must be above 0.1, the threshold before it',
    mend: 'Raise it, or lower the one before.',
  },
  {
    title: 'a sign in no group', file: 'triage.yaml',
    from: 'level: emergency, group: trauma',
    to: 'level: emergency, group: falls',
    path: 'signs[11].group', message: 'is no group of this file',
    mend: 'Use one of: trauma, limbs, dizziness-face, headache, bladder-walking, illness-chest, none.',
  },
  {
    title: 'a sign that stands twice', file: 'triage.yaml',
    from: 'id: slow-weakness',
    to: 'id: arm-numbness', at: 'id: arm-numbness, level: urgent, group: limbs, source: our choice }\n  - { id: clumsy',
    path: 'signs[15].id', message: 'stands twice',
    mend: 'Remove one of the two.',
  },
  {
    title: 'an emergency that waits too long', file: 'triage.yaml',
    from: 'emergency: { value: 10',
    to: 'emergency: { value: 31',
    path: 'escalation.resend_after_min.emergency.value', message: 'must be at most 30',
    mend: 'Lower it to 30 or less.',
  },
  {
    title: 'a blood pressure gate that was raised', file: 'triage.yaml',
    from: 'systolic: 180',
    to: 'systolic: 181',
    path: 'gates.refused_blood_pressure_mmhg.value.systolic', message: 'must be at most 180',
    mend: 'Lower it to 180 or less.',
  },
  {
    title: 'a message with an open brace', file: 'wording/en/session.yaml',
    from: 'greeting: Hello.',
    to: 'greeting: Hello {name.',
    path: 'greeting', message: 'is no message that can be filled in',
    mend: 'Check the braces: {name}, or {count, plural, one {…} other {…}}.',
  },
  {
    title: 'a message that is no text', file: 'wording/en/session.yaml',
    from: 'greeting: Hello.',
    to: 'greeting: 5',
    path: 'greeting', message: 'must be a text, or a group of named texts',
    mend: 'Put the text in quotes, or remove the key.',
  },
  {
    title: 'a dot in a wording key', file: 'wording/en/session.yaml',
    from: 'greeting: Hello.',
    to: 'greeting.first: Hello.',
    path: 'greeting.first', message: 'has a dot in its key',
    mend: 'Nest the text instead: the part before the dot holds the part after it.',
  },
]

describe('a mistake in the content', () => {
  it.each(mistakes)('$title is listed with file, line and mend', async ({ file, from, to, at, path, message, mend }) => {
    const copy = await makeCopy()
    copy.replace(file, from, to)
    expect(copy.problems()).toEqual([{ file: `content/${file}`, line: copy.lineOf(file, at ?? to), path, message, mend }])
  })

  it('does not hide another: all of them are thrown together, file by file', async () => {
    const copy = await makeCopy()
    copy.replace('exercises/seated-band.yaml', 'rest_s: 90', 'rest_s: 900')
    copy.replace('exercises/seated-band.yaml', 'direction: extension\n', '')
    copy.replace('protocols/novice.yaml', 'red: { value: 2', 'red: { value: 9')
    copy.replace('triage.yaml', 'note: >-', 'remark: >-')
    expect(copy.problems().map(({ file, path, message }) => [file, path, message])).toEqual([
      ['content/exercises/seated-band.yaml', 'direction', 'is missing'],
      ['content/exercises/seated-band.yaml', 'rest_s', 'must be at most 300'],
      ['content/protocols/novice.yaml', 'running.red.value', 'must be at most 3'],
      ['content/triage.yaml', 'note', 'is missing'],
      ['content/triage.yaml', 'remark', 'is no known key here'],
    ])
  })

  it('is put into one line each by the error', async () => {
    const copy = await makeCopy()
    const line = copy.replace('exercises/seated-band.yaml', 'rest_s: 90', 'rest_s: 900')
    expect(() => loadContent(copy.root)).toThrow(
      expect.objectContaining({
        code: 'content-unusable',
        message: `content/exercises/seated-band.yaml:${line}: rest_s must be at most 300. Lower it to 300 or less.`,
      }),
    )
  })
})

describe('a file of the content', () => {
  const whole = (file: string, message: string, mend: string): Problem => ({ file: `content/${file}`, line: 1, path: '', message, mend })

  it.each(['triage.yaml', 'restrictions.yaml', 'lexicon/en.yaml'])('%s cannot be left out', async (file) => {
    const copy = await makeCopy()
    copy.remove(file)
    expect(copy.problems()).toEqual([whole(file, 'cannot be read', 'Create it, or make it readable.')])
  })

  it.each(['exercises', 'ladders', 'protocols', 'wording'])('cannot be missed together with its folder: %s', async (folder) => {
    const copy = await makeCopy()
    copy.remove(folder)
    expect(copy.problems()).toContainEqual(whole(folder, 'cannot be read as a folder', 'Create it, with at least one file in it.'))
  })

  it.each([
    ['has another ending', 'exercises/spare.yml', 'does not end in .yaml', 'Rename it, or move it out of this folder.'],
    ['is named after no language', 'wording/english_/x.yaml', '', ''],
  ])('is refused where it %s', async (_, file, message, mend) => {
    const copy = await makeCopy()
    copy.write(file, 'greeting: Hello.')
    const expected = file.startsWith('wording')
      ? whole('wording/english_', 'is named after no language', 'Name it after a language tag such as en or pt-BR (BCP 47).')
      : whole(file, message, mend)
    expect(copy.problems()).toEqual([expected])
  })

  it('may be a language of its own, which needs a lexicon in the same language', async () => {
    const copy = await makeCopy()
    copy.write('wording/nl/session.yaml', 'greeting: Hallo.')
    copy.write('lexicon/nl.yaml', smallLexicon('en'))
    expect(copy.problems()).toEqual([
      whole('lexicon/nl.yaml', 'is of another language than its file is named after', 'Write language: nl.'),
    ])
    copy.write('lexicon/nl.yaml', smallLexicon('nl'))
    expect([...loadContent(copy.root).languages.keys()]).toEqual(['en', 'nl'])
  })

  it('is listed with the problems of a lexicon', async () => {
    const copy = await makeCopy()
    copy.write('lexicon/en.yaml', 'language: [')
    expect(copy.problems().map(({ file, line }) => [file, line])).toEqual([['content/lexicon/en.yaml', 1]])
  })

  it('may not hold a restriction that no exercise heeds', async () => {
    const copy = await makeCopy()
    copy.replace('restrictions.yaml', 'no-load-through-head:', 'no-cold-rooms: Nothing.\nno-load-through-head:')
    expect(copy.problems()).toEqual([
      {
        file: 'content/restrictions.yaml',
        line: copy.lineOf('restrictions.yaml', 'no-cold-rooms'),
        path: 'no-cold-rooms',
        message: 'is heeded by no exercise',
        mend: 'Name it in an exercise, or remove it.',
      },
    ])
  })
})
