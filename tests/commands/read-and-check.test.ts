import { describe, expect, it } from 'vitest'
import { runHere } from './run-here.ts'

const nothing = { value: null, redFlags: [], stop: false, understood: false }
const numb = { value: null, redFlags: [{ level: 'urgent', sign: 'arm-numbness' }], stop: false, understood: true }

describe('read', () => {
  it.each([
    [['read', '', '--awaiting', 'pain', '--json'], nothing],
    [['read', '   ', '--awaiting=reserve'], nothing],
    [['read', '-', '--json', '--awaiting=control'], nothing],
    [['read', '--awaiting', 'nothing', '-', '--json'], nothing],
    [['read', '--json', '--awaiting', 'nothing', ''], nothing],
    [['read', '--awaiting=pain', '--json', '--my arm is numb'], numb],
    [['read', '-my arm is numb', '--awaiting=pain', '--json'], numb],
    [['read', '--json', '--awaiting=pain', '--', '-my arm is numb'], numb],
    [['read', '--awaiting', 'pain', '--json', 'my arm is numb'], numb],
    [['read', '--json', '--awaiting', 'pain', '4'], { ...nothing, value: 4, understood: true }],
    [['read', '4', '--awaiting=pain', '--locale=en'], { ...nothing, value: 4, understood: true }],
    [['read', 'yes', '--awaiting', 'yesno'], { ...nothing, value: true, understood: true }],
    [['read', 'stop', '--awaiting', 'nothing'], { ...nothing, stop: true, understood: true }],
  ])('takes %j and exits with 0', async (args, expected) => {
    const { status, printed, complaints } = await runHere(args)
    expect({ status, printed: printed.map((line) => JSON.parse(line) as unknown), complaints }).toEqual({ status: 0, printed: [expected], complaints: [] })
  })
})

describe('check', () => {
  it('finds nothing wrong with what is shipped, says what it looked at, and exits with 0', async () => {
    const plain = await runHere(['check'])
    const asJson = await runHere(['check', '--json'])
    expect([plain.status, plain.complaints, asJson.status, asJson.complaints]).toEqual([0, [], 0, []])
    expect(plain.printed).toEqual([expect.stringMatching(/^Content and flows hold: \d+ exercises, /)])
    const { problems, counts } = JSON.parse(asJson.printed.join('\n')) as { problems: unknown[]; counts: Record<string, number> }
    expect(problems).toEqual([])
    expect(Object.entries(counts).filter(([, count]) => count === 0)).toEqual([])
  })
})

describe('help', () => {
  it.each<readonly [readonly string[]]>([[[]], [['start']], [['check']], [['rehearse']], [['read']], [['enrol']], [['sign']]])('of %j is printed and exits with 0', async (command) => {
    const { status, printed, complaints } = await runHere([...command, '--help'])
    expect({ status, complaints }).toEqual({ status: 0, complaints: [] })
    expect(printed.join('\n')).toContain(`Usage: nuchal${command.map((name) => ` ${name}`).join('')} [`)
  })
})
