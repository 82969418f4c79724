import { describe, expect, it } from 'vitest'
import { read } from './reading-of.ts'

/** Asked is whether chin, shoulders or body moved to help: no, a little, yes. */
const rows: readonly (readonly [string, 'steady' | 'shaky' | 'lost' | null])[] = [
  ['no', 'steady'], ['nope', 'steady'], ['none', 'steady'], ['not at all', 'steady'], ['steady', 'steady'],
  ['perfectly steady', 'steady'], ['rock solid', 'steady'], ['great', 'steady'], ['perfect', 'steady'],
  ['felt good', 'steady'],
  ['fine', 'steady'], ['smooth and clean', 'steady'], ['no wobble', 'steady'], ['no cheating', 'steady'],
  ["didn't lose control", 'steady'], ['chin stayed tucked', 'steady'], ['shoulders stayed down', 'steady'],
  ["my body didn't move", 'steady'],
  ['no movement', 'steady'], ['under control', 'steady'], ['not shaky', 'steady'], ['no, all steady', 'steady'],
  ['👌', 'steady'], ['stedy', 'steady'], ['no problem', 'steady'],
  ['a little', 'shaky'], ['a bit', 'shaky'], ['a bit wobbly', 'shaky'], ['slightly', 'shaky'], ['shaky', 'shaky'],
  ['wobbled', 'shaky'], ['trembling', 'shaky'], ['unsteady', 'shaky'], ['cheated a little', 'shaky'],
  ['my shoulders crept up a bit', 'shaky'],
  ['yes a little', 'shaky'], ['yes, but only a little', 'shaky'], ['a little, yes', 'shaky'],
  ['mostly steady', 'shaky'], ['not perfect', 'shaky'], ['not perfectly steady', 'shaky'],
  ['not quite steady', 'shaky'], ['steady at first, then shaky', 'shaky'], ['so so', 'shaky'], ['jerky', 'shaky'],
  ['yes', 'lost'], ['yep', 'lost'], ['lost it', 'lost'], ['lost control', 'lost'], ['shoulder crept up', 'lost'],
  ['cheated', 'lost'], ['my body swung', 'lost'], ['used my trunk', 'lost'], ['my chin poked forward', 'lost'],
  ['steady at first then lost it', 'lost'],
  ['not steady', 'lost'], ['no control', 'lost'], ["couldn't hold it", 'lost'], ['all over the place', 'lost'],
  ['had to lean back', 'lost'], ['terrible', 'lost'], ['I shrugged', 'lost'], ['lost form on the last rep', 'lost'],
  ['yes my shoulders moved', 'lost'],
  ["no they didn't", 'steady'], ['not that I noticed', 'steady'], ['strong as an ox', 'steady'], ['went grand', 'steady'],
  ['like clockwork', 'steady'], ['sound as a pound', 'steady'],
  ['a wee bit on the final one', 'shaky'], ['bit wobbly', 'shaky'], ['went a bit shoogly', 'shaky'], ['bit ropey', 'shaky'],
  ['yes they did', 'lost'], ['quite a lot tbh', 'lost'], ['went to pieces on the last two', 'lost'],
  ['my shoulders did all the work', 'lost'], ['I was all over the shop', 'lost'],
  ['ok', null], ['okay', null], ['not bad', null], ['yes, steady', null], ['3', null], ['hm', null], ['tired', null],
  ['', null], ['my arm is numb', null],
]

describe('control in words', () => {
  it.each(rows)('"%s" is %s', (text, value) => {
    expect(read(text, 'control').value).toBe(value)
  })
})
