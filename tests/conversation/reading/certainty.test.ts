import { describe, expect, it } from 'vitest'
import type { Awaiting } from '#src/conversation/reading/read-message.ts'
import { perhaps, surely } from './reading-of.ts'

const sure: readonly (readonly [string, readonly string[]])[] = [
  ["the room won't stop spinning", ['spinning-lasting']],
  ['no my hand is numb', ['arm-numbness']],
  ['a head rush after that one, gone now', ['light-headed']],
  ['fainted, gone now', ['drop-attack']],
  ['wife here, he cannot speak', ['speech-or-swallowing']],
  ['I am her husband, her face is drooping', ['face-droop']],
  ['38.9 and very hot', ['fever']],
  ['losing weight without dieting', ['weight-loss']],
  ['not tired, just dizzy', ['light-headed']],
  ['numbness? no. dizziness? yes.', ['light-headed']],
  ["I have no idea why I'm dizzy", ['light-headed']],
  ['he fell on me and now my neck hurts', ['other-trauma']],
  ['no numbness but I am dizzy', ['light-headed']],
  ['no. dizzy.', ['light-headed']],
  ['no, dizzy', ['light-headed']],
  ['no numbness and I am dizzy', ['light-headed']],
  ['no numbness and dizzy', ['light-headed']],
  ['no pain I am dizzy', ['light-headed']],
  ['no numbness, my hand tingles though', ['arm-numbness']],
  ["can't do it my arm is numb", ['arm-numbness']],
  ["didn't finish because I felt dizzy", ['light-headed']],
  ['not only numb but also weak in the arm', ['sudden-weakness', 'arm-numbness']],
  ['no doubt my hand is numb', ['arm-numbness']],
  ['my face is fine but my arm is numb', ['arm-numbness']],
  ['numbness, but not in my face', ['arm-numbness']],
  ['my arm is numb, what should I do?', ['arm-numbness']],
  ['what should I do? my arm is numb', ['arm-numbness']],
  ['my arm went numb is that normal?', ['arm-numbness']],
  ['if I look up my arm goes numb', ['arm-numbness']],
  ['dizzy? yes', ['light-headed']],
  ["the numbness hasn't gone", ['arm-numbness']],
  ['never been so dizzy', ['light-headed']],
  ['my wife says my speech is slurred', ['speech-or-swallowing']],
  ['Arm: numb', ['arm-numbness']],
  ['Face: numb', ['face-or-half-body-numbness']],
  ['the chest pain is as usual', ['chest-pain-or-breathless']],
  ['I stopped early\nmy hand is tingling', ['arm-numbness']],
  ["I can't feel my hand any more", ['arm-numbness']],
  ['numb and weak in the left hand', ['sudden-weakness', 'arm-numbness']],
  ['MY ARM IS NUMB!!!', ['arm-numbness']],
  ['<b>numb</b> hand', ['arm-numbness']],
]

const denied: readonly string[] = [
  'no problems with walking or balance', 'no problem swallowing', 'there is no pain, tingling or numbness in my arm',
  "can't say I'm dizzy", 'no feeling of numbness', 'nothing hurts and nothing is numb', 'no dizzy spells',
  'no numbness or tingling', 'not dizzy at all', 'without any dizziness', "I don't feel dizzy", 'never been dizzy',
  "isn't numb",
  'no numbness, no tingling, no weakness', 'no numbness, tingling or weakness in the arm', 'not dizzy, numb or weak',
  'I have no numbness in my arm',
  "I don't think my arm is numb", 'none of my fingers are numb', 'neither my arm nor my hand is numb',
  "didn't notice any tingling", 'dizziness: no',
  'numbness - none', 'dizzy? no', '0 numbness', 'dizziness 0', 'nothing numb, nothing tingling',
  'no signs of numbness', 'no new tingling', 'free of tingling',
  'my chest is not tight', 'my arms are fine', 'swallowing is fine', 'no weakness/numbness', 'w/o numbness',
]

const unsure: readonly (readonly [string, readonly string[]])[] = [
  ['what should I do if I feel dizzy', ['light-headed']],
  ['my breathing', ['chest-pain-or-breathless']],
  ["I can't see", ['vision-loss-or-double']],
  ['shooting pain down my arm', ['arm-numbness']],
  ['numbness is gone', ['arm-numbness']],
  ['the tingling went away', ['arm-numbness']],
  ['I used to be dizzy', ['light-headed']],
  ['what if I get dizzy?', ['light-headed']],
  ['should I worry about numbness?', ['arm-numbness']],
  ['dizzy?', ['light-headed']],
  ['is numbness normal after this exercise', ['arm-numbness']],
  ['if I get dizzy I will stop', ['light-headed']],
  ['not very dizzy', ['light-headed']],
  ['not dizzy any more', ['light-headed']],
  ['no longer dizzy', ['light-headed']],
  ['I had numb hands ten years ago', ['clumsy-hands']],
  ['my friend has chest pain', ['chest-pain-or-breathless']],
  ['my mind went numb with boredom', ['arm-numbness']],
  ['the usual tingling in my hand', ['arm-numbness']],
  ['out of breath after the stairs', ['chest-pain-or-breathless']],
  ['slight headache', ['pain-unlike-any']],
  ['I feel weak', ['feeling-ill']],
  ['can it cause numbness?', ['arm-numbness']],
  ['not sure if I am dizzy', ['light-headed']],
  ['worried my arm will stop working one day', ['sudden-weakness']],
  ['my wife cannot speak', ['speech-or-swallowing']],
  ['lost weight, on a diet', ['weight-loss']],
]

const neither: readonly string[] = [
  'dead easy', 'killing it', 'that set was a killer', 'weak coffee', 'I fell behind schedule', 'I fell asleep',
  'crash course', 'sick of this', 'shocking weather',
  'blind luck', 'the band fell', 'stroke of luck', 'felt strong', 'my neck feels weak', 'tired', 'weak set',
  'hay fever', "can't see the point", "can't talk now",
  'on the other hand', 'no pain no gain', 'held my breath', 'it was a pain in the neck to set up', "I'll do it later",
  'ill do it later', 'my computer crashed',
  'spinning class', 'killing time', 'a heavy set', 'double the reps', 'my form collapsed', 'face to face', 'lost it',
  'my shoulder crept up', 'a bit unsteady', 'done',
  'dropped my shoulders', 'chest up, shoulders down', 'I feel great', 'my arms are tired', 'hard but fine',
  'right then, see you tonight', 'he fell silent',
]

describe('how sure a symptom is', () => {
  it.each(sure)('"%s" alarms with %j', (text, signs) => {
    expect(surely(text)).toEqual(signs)
  })

  it.each(denied.map((text) => [text]))('"%s" denies everything', (text) => {
    expect([surely(text), perhaps(text)]).toEqual([[], []])
  })

  it.each(unsure)('"%s" makes the bot ask about %j', (text, signs) => {
    expect([surely(text), perhaps(text)]).toEqual([[], signs])
  })

  it.each(neither.map((text) => [text]))('"%s" speaks of no sign', (text) => {
    expect([surely(text), perhaps(text)]).toEqual([[], []])
  })

  it('makes the bot ask about a wobble that answers no question', () => {
    expect(['yesno', 'control', 'nothing'].map((awaiting) => perhaps('bit wobbly', awaiting as Awaiting)))
      .toEqual([['unsteady-walking'], [], []])
    expect(perhaps('yes, a bit wobbly', 'yesno')).toEqual([])
  })
})
