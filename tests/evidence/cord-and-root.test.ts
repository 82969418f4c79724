// Sources as in published/myelopathy-cluster.ts (Cook 2010) and published/radiculopathy-cluster.ts (Wainner 2003). Both need
// an examiner: a chat knows a client's age and what they say of their walking, which can neither rule in nor out.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { shippedContent } from '#tests/support/content-copy.ts'
import { judge } from './published/myelopathy-cluster.ts'
import { cluster, impliedPreTest } from './published/radiculopathy-cluster.ts'

const negative = { age: 45, hasGaitDeviation: false, hoffmann: false, invertedSupinator: false, babinski: false }

describe('the cord cluster (Cook 2010)', () => {
  it.each([
    ['none of five', {}, 'ruled out'],
    ['one of five', { babinski: true }, 'ruled out'],
    ['two of five', { babinski: true, hoffmann: true }, 'undetermined'],
    ['three of five', { babinski: true, hoffmann: true, hasGaitDeviation: true }, 'ruled in'],
    ['five of five', { age: 46, babinski: true, hoffmann: true, hasGaitDeviation: true, invertedSupinator: true }, 'ruled in'],
    ['two and 45 years, which does not count', { age: 45, babinski: true, hoffmann: true }, 'undetermined'],
    ['two and 46 years, which does', { age: 46, babinski: true, hoffmann: true }, 'ruled in'],
  ] as const)('%s: %s', (_, changes, verdict) => {
    expect(judge({ ...negative, ...changes })).toBe(verdict)
  })

  it('stays open on all that a chat can know, so that nobody is ever told that the cord is well', () => {
    const untested = { hoffmann: null, invertedSupinator: null, babinski: null }
    const known = [45, 46].flatMap((age) => [false, true].map((hasGaitDeviation) => judge({ age, hasGaitDeviation, ...untested })))
    expect(known).toEqual(Array(4).fill('undetermined'))
  })
})

describe('the nerve-root cluster (Wainner 2003)', () => {
  // Two printed places leave an interval for the ratio; each printed ratio has to lie in its own.
  it.each(cluster)('prints for $positive positive tests a likelihood ratio that its sensitivity and specificity give', (row) => {
    const half = 0.005
    const least = (row.sensitivity - half) / (1 - row.specificity + half)
    const most = (row.sensitivity + half) / (1 - row.specificity - half)
    expect(row.likelihoodRatio).toBeGreaterThanOrEqual(least)
    expect(row.likelihoodRatio).toBeLessThanOrEqual(most)
  })

  it('rests on one probability before the tests, 23 %, whichever row it is worked back from [calc]', () => {
    expect(cluster.map((row) => Math.round(impliedPreTest(row) * 100))).toEqual([23, 23, 23])
  })
})

describe('what a client is asked to do', () => {
  it('is never an examiner’s test of either cluster', () => {
    const tests = /spurling|distraction test|tension test|hoffmann|babinski|supinator/i
    const folders = ['exercises', 'wording/en']
    const texts = folders.flatMap((folder) => readdirSync(`${shippedContent}/${folder}`).map((file) => `${folder}/${file}`))
    expect(texts.length).toBeGreaterThan(20)
    expect(texts.filter((file) => tests.test(readFileSync(`${shippedContent}/${file}`, 'utf8')))).toEqual([])
  })
})
