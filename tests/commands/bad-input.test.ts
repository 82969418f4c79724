import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { runHere } from './run-here.ts'

const plan = 'content/plans/extension.yaml'

/** Files that somebody got wrong, each in its own way. */
async function writeMistakes(folder: string): Promise<Readonly<Record<string, string>>> {
  const texts = {
    'broken.yaml': 'client: { name: Ana, language: en }\nzone: [Europe/Dublin\n',
    'empty.yaml': '',
    'unknown-key.json': '{"sessions":[{"day":0,"sets":{"extension":[{"pain":1,"contro1":"steady"}]}}]}',
    'out-of-range.json': '{"sessions":[{"day":0,"before":{"pain":11}}]}',
    'not-rising.jsonl': '{"sessions":[]}\n{"sessions":[{"day":3},{"day":3}]}\n',
    'no-json.json': '{"sessions":[}',
    'good.json': '{"sessions":[]}',
  }
  for (const [name, text] of Object.entries(texts)) await writeFile(join(folder, name), text)
  return Object.fromEntries(Object.keys(texts).map((name) => [name, join(folder, name)]))
}

describe('a command with bad input', () => {
  it('exits with 2 and one line that names what is wrong and the mend, and prints nothing else', async () => {
    const folder = await makeTemporaryFolder()
    const files = await writeMistakes(folder)
    const rehearse = ['rehearse', '--plan', plan]
    const expected: readonly (readonly [readonly string[], string | RegExp])[] = [
      [[], 'no command was named. See --help.'],
      [['frobnicate'], "unknown command 'frobnicate'. See --help."],
      [['check', '--frobnicate'], "unknown option '--frobnicate'. See --help."],
      [['rehearse', '--virtual', '1'], "required option '--plan <PLAN.yaml>' not specified. See --help."],
      [['enrol', join(folder, 'none.yaml')], `${join(folder, 'none.yaml')}: there is no such file: check the path`],
      [['enrol', folder], `${folder}: this is a folder: name a file in it`],
      [['enrol', files['broken.yaml']!], /broken\.yaml:\d+: /],
      [['enrol', files['empty.yaml']!], /empty\.yaml:\d+: /],
      [[...rehearse, '--answers', files['unknown-key.json']!], /unknown-key\.json: sessions\[0\]\.sets\.extension\[0\] has keys that are not known: contro1\. Remove them$/],
      [[...rehearse, '--answers', files['out-of-range.json']!], /out-of-range\.json: sessions\[0\]\.before\.pain is not usable: /],
      [[...rehearse, '--answers', files['not-rising.jsonl']!], /not-rising\.jsonl:2: sessions\[1\]\.day is not usable: must be later than day 3$/],
      [[...rehearse, '--answers', files['no-json.json']!], /no-json\.json: this is no JSON: check commas, quotes and brackets$/],
      [rehearse, 'rehearse needs either --answers FILE or --virtual N.'],
      [[...rehearse, '--answers', files['good.json']!, '--virtual', '2'], 'rehearse needs either --answers FILE or --virtual N.'],
      [[...rehearse, '--virtual', 'two'], /option '--virtual <N>' argument 'two' is invalid\. It must be a whole number\. See --help\.$/],
      [['read', 'one', '--awaiting', 'pain', '--locale', 'xx'], /^--locale xx has no wording\. Write one of: en/],
      [['read', 'one', '--awaiting', 'mood'], /argument 'mood' is invalid\. Allowed choices are pain, control, reserve, yesno, nothing\. See --help\.$/],
      [['read', 'one', 'two', '--awaiting', 'pain'], /too many arguments/],
      [['read', '--awaiting', 'pain'], "missing required argument 'TEXT'. See --help."],
      [['read', 'one'], "required option '--awaiting <KIND>' not specified. See --help."],
    ]
    const ran = []
    for (const [args] of expected) ran.push(await runHere(args, { DATA_DIR: join(folder, 'data') }))
    expect(ran).toEqual(expected.map(([, line]) => ({ status: 2, printed: [], complaints: [typeof line === 'string' ? line : expect.stringMatching(line)] })))
  }, 120_000)
})
