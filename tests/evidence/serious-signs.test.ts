// Sources beside each table in serious-signs-table.ts. Every sign that a source lists and that a client can notice has to be
// read from ordinary words, at its level or above; that something is not listed here says nothing about its weight.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { alertLevels } from '#src/domain/triage.ts'
import { read } from '#tests/conversation/reading/reading-of.ts'
import { shippedContent } from '#tests/support/content-copy.ts'
import { content } from '#tests/support/sample-chain.ts'
import { arteries, cordQuestions, fiveDsThreeNs, seriousDisease, thunderclap, tiers, type SignRow } from './serious-signs-table.ts'

const tables: Readonly<Record<string, readonly SignRow[]>> = {
  'the five Ds and three Ns': fiveDsThreeNs,
  'cord questions (Cook 2010)': cordQuestions,
  'arteries of the neck (Rushton 2020)': arteries,
  'serious disease (Finucane 2020, Blanpied 2017)': seriousDisease,
  'thunderclap headache (ICHD-3)': thunderclap,
  'tiers of escalation': tiers,
}

describe.each(Object.entries(tables))('%s', (_, rows) => {
  it.each(rows)('$sign, "$words", is at least $least', ({ words, least }) => {
    const { redFlags } = read(words)
    const enough = redFlags.filter((flag) => alertLevels.indexOf(flag.level) >= alertLevels.indexOf(least))
    expect(enough).not.toEqual([])
    // What is read stands in the triage content at the same level, so that the chart acts on it.
    expect(redFlags.map((flag) => levelInContent(flag.sign))).toEqual(redFlags.map((flag) => flag.level))
  })
})

describe('an answer that all is well', () => {
  it('clears nobody: no text to a client calls a symptom harmless or a neck safe', () => {
    const reassurance = /\b(you are|it is|this is|that is|your neck is) (fine|safe|harmless|nothing|not serious|clear|healthy)\b|nothing to worry|no need to (call|worry|see)/i
    const files = readdirSync(`${shippedContent}/wording/en`)
    expect(files.length).toBeGreaterThan(10)
    expect(files.filter((file) => reassurance.test(readFileSync(`${shippedContent}/wording/en/${file}`, 'utf8')))).toEqual([])
  })
})

// Numbers by country [memory:high]: 112, 999, 911, 000, 111. The right one is local, so it is the plan's.
describe('the number to call', () => {
  it('stands in no text of ours', () => {
    const files = readdirSync(`${shippedContent}/wording/en`)
    expect(files.filter((file) => /\b(112|999|911|000|111)\b/.test(readFileSync(`${shippedContent}/wording/en/${file}`, 'utf8')))).toEqual([])
  })
})

function levelInContent(sign: string): string | undefined {
  return content.triage.signs.find(({ id }) => id === sign)?.level
}
