import { describe, expect, it } from 'vitest'
import { read } from './reading-of.ts'

/** 0–10 as in the numeric pain rating scale; fractions and ranges go to the worse whole (our choice). */
const pain: readonly (readonly [string, number | null])[] = [
  ['0', 0], ['10', 10], ['3', 3], [' 4 ', 4], ['4.', 4], ['4!', 4], ['2.5', 3], ['0.5', 1], ['2,5', 3], ['2½', 3],
  ['½', 1], ['3-4', 4], ['3 - 4', 4], ['3–4', 4], ['3 to 4', 4],
  ['between 2 and 3', 3], ['2 or 3', 3], ['4/10', 4], ['4 / 10', 4], ['10/10', 10], ['3.5/10', 4], ['3-4/10', 4],
  ['4 out of 10', 4], ['four out of ten', 4], ['４', 4], ['4️⃣', 4],
  ['🔟', 10], ['1️⃣0️⃣', 10], ['٤', 4], ['४', 4], ['about a three', 3], ['zero', 0], ['ten', 10],
  ['three and a half', 4], ['3 and a bit', 4], ['two point five', 3], ['maybe 2', 2], ['like a 6 or so', 6],
  ['4ish', 4], ['~3', 3], ['3?', 3], ['it hurt at 5', 5], ['pain was 2 in set 3', 2], ['set 2 was a 4', 4],
  ['2 in the neck, 5 in the shoulder', 5], ['nothing', 0], ['none', 0], ['no pain', 0], ['no pain at all', 0],
  ['painless', 0], ["didn't hurt", 0], ['not sore', 0], ['without pain', 0], ['zero pain', 0],
  ['nothing, maybe a 1', 1], ['no pain but tired', 0], ['0 pain, 3 left', 0], ['2, three left', 2],
  ['no pain at first, then a 3', 3],
  ['muscles are at 6 but thats just work, pain 2', 2], ['effort was 8 pain 1', 1], ['effort 6/10 pain 2/10', 2],
  ['hard work, effort 9, but pain only a 3', 3], ['half a dozen', 6], ['fuor', 4],
  ['more than 5', 6], ['5+', 6], ['less than 3', 3], ['almost 4', 4], ['10+', 10], ['on a scale of 0 to 10, 4', 4],
  ['4 on the left, 2 on the right', 4], ['3 left shoulder', 3], ['eigth', 8], ['sevn', 7], ['no numbness, 2', 2],
  ['*4*', 4], ['<b>4</b>', 4], ['\u200f4\u200f', 4], ['\u0007 4', 4], ['pain 2/10, control steady, 3 left', 2],
  ['was 3, no wait 2', 2], ['5, sorry I meant 2', 2], ['not 4 but 3', 3], ['id say 3 out of ten', 3],
  ['11', null], ['-1', null], ['−2', null], ['minus 3', null], ['100', null], ['12/10', null], ['7/5', null],
  ['3/5', null], ['10.5', null], ['great', null], ['perfect', null], ['felt good', null], ['ok', null],
  ['okay', null], ['fine', null],
  ['10 seconds', null], ['5 kg', null], ['5kg', null], ['set 2', null], ['3 sets', null], ['at 18:00', null],
  ['3x8', null], ['3 x 8', null], ['2nd', null], ['40%', null], ['c5', null], ['4a', null], ['3 left', null],
  ['2 reps', null], ['that one hurt', null],
  ['not bad', null], ['a bit', null], ['some pain', null], ['no pain no gain', null], ['no pain until the end', null],
  ['hardly any', null], ['no more pain than usual', null], ['nothing much', null], ['not very sore', null],
  ['no pain but sore', null],
  ['', null], ['   ', null], ['?', null], ['ouch', null],
]

const reserve: readonly (readonly [string, number | null])[] = [
  ['0', 0], ['3', 3], ['12', 12], ['2 or 3', 2], ['2-3', 2], ['3 or 2', 2], ['2.5', 2], ['two and a half', 2],
  ['at least 3', 3], ['5+', 5], ['maybe 2', 2], ['2 more', 2], ['one more', 1], ['another two', 2], ['a couple', 2],
  ['a couple more', 2],
  ['none left', 0], ['none', 0], ['nothing', 0], ['nothing left in the tank', 0], ["couldn't do more", 0],
  ["couldn't do another", 0], ["couldn't do any more", 0], ['to failure', 0], ['no more reps', 0], ['empty', 0],
  ['zero', 0], ['less than 1', 0], ['barely 1', 0], ['almost 3', 2],
  ['could do 4', 4], ['could have done maybe 3 more', 3], ['3 reps', 3], ['3 reps left', 3], ['pain 2, 4 left', 4],
  ['2/10, 3 left', 3], ['10 seconds hold, 3 left', 3], ['４', 4], ['3️⃣', 3], ['more than 2', 2], ['3, no wait 1', 1],
  ['thre', 3], ['did 8, 2 left', 2],
  ['half a dozen', 6], ['about half a dozen more', 6], ['I had nothing more to give', 0], ['no more at all', 0], ['I was done', 0],
  ['tow', 2], ['three in the tank', 3],
  ['loads', null], ['plenty', null], ['many', null], ['a few', null], ['ok', null], ['great', null], ['-1', null],
  ['100', null], ['3/5', null], ['2/10', null], ['pain 4', null], ['3 sets', null], ['5 kg', null],
  ['10 seconds', null], ['no idea', null], ['did 8 reps', null], ['', null],
]

describe('a number', () => {
  it.each(pain)('awaiting pain, "%s" is %s', (text, value) => {
    const reading = read(text, 'pain')
    expect([reading.value, reading.understood]).toEqual([value, value !== null || reading.stop || reading.command !== null])
  })

  it.each(reserve)('awaiting reserve, "%s" is %s', (text, value) => {
    expect(read(text, 'reserve').value).toBe(value)
  })

  it.each(['11', '7/5', 'ok', 'ouch', ''])('awaiting pain, "%s" is not understood', (text) => {
    expect(read(text, 'pain').understood).toBe(false)
  })
})
