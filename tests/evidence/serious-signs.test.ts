// Sources beside each table in serious-signs-table.ts. Every sign that a source lists and that a client can notice has to be
// read from ordinary words, at its level or above; that something is not listed here says nothing about its weight.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { alertLevels, type AlertLevel } from '#src/domain/triage.ts'
import { read } from '#tests/conversation/reading/reading-of.ts'
import { shippedContent } from '#tests/support/content-copy.ts'
import { content } from '#tests/support/sample-chain.ts'
import {
  arteries,
  cordQuestions,
  fiveDsThreeNs,
  inOtherWords,
  seriousDisease,
  thunderclap,
  tiers,
  type SignRow,
} from './serious-signs-table.ts'

const tables: Readonly<Record<string, readonly SignRow[]>> = {
  'the five Ds and three Ns': fiveDsThreeNs,
  'cord questions (Cook 2010)': cordQuestions,
  'arteries of the neck (Rushton 2020)': arteries,
  'serious disease (Finucane 2020, Blanpied 2017)': seriousDisease,
  'thunderclap headache (ICHD-3)': thunderclap,
  'tiers of escalation': tiers,
  'the same signs in other words': inOtherWords,
}

describe.each(Object.entries(tables))('%s', (_, rows) => {
  it.each(rows)('$sign, "$words", is at least $least', ({ words, least }) => {
    const { redFlags } = read(words)
    expect(redFlags.some((flag) => isAtLeast(flag.level, least))).toBe(true)
    // What is read stands in the triage content at the same level, so that the chart acts on it.
    expect(redFlags.map((flag) => levelInContent(flag.sign))).toEqual(redFlags.map((flag) => flag.level))
  })
})

const wordingFiles = readdirSync(`${shippedContent}/wording/en`)

/** The files of wording, of those named, in which something is found. */
function filesWith(found: RegExp, files: readonly string[]): readonly string[] {
  return files.filter((file) => found.test(readFileSync(`${shippedContent}/wording/en/${file}`, 'utf8')))
}

describe('an answer that all is well', () => {
  it('clears nobody: no text to a client calls a symptom harmless or a neck safe', () => {
    const told = /(?<!sure that )\b(you are|it is|this is|your neck is|your pain is) (safe|harmless|nothing|not serious|cleared|healthy)\b/i
    const comforted = /nothing to worry|no need to (call|worry|see)/i
    expect(wordingFiles.length).toBeGreaterThan(10)
    expect([told, comforted].flatMap((found) => filesWith(found, wordingFiles))).toEqual([])
  })
})

// Numbers by country [memory:high]: 112, 999, 911, 000, 111. The right one is local, so it is the plan's.
describe('the number to call', () => {
  it('stands in no text of ours', () => {
    expect(filesWith(/\b(call|ring|dial|phone)\b[^.?\n]{0,30}\b(112|999|911|000|111)\b/i, wordingFiles)).toEqual([])
  })
})

function levelInContent(sign: string): string | undefined {
  return content.triage.signs.find(({ id }) => id === sign)?.level
}

function isAtLeast(level: AlertLevel, least: AlertLevel): boolean {
  return alertLevels.indexOf(level) >= alertLevels.indexOf(least)
}
