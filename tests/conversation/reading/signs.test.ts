import { describe, expect, it } from 'vitest'
import { signLevels } from '#src/conversation/reading/signs.ts'
import { read, surely, wordedSigns, type WordedSign } from './reading-of.ts'

interface Row {
  readonly said: readonly string[]
  readonly denied: readonly string[]
}

/**
 * The signs of the published lists: 5 Ds and 3 Ns and the IFOMPT framework (Rushton 2020, JOSPT 2023;53(1):7-22),
 the cord
 * questions that a bot can ask (after Cook 2010), the Canadian C-spine rule (Stiell 2001, JAMA 286:1841-1848),
 the red flags
 * of Finucane 2020 (JOSPT 50(7):350-372), thunderclap headache (ICHD-3 4.4). Which of them are one sign, self-harm,
 being
 * hurt and wound change: common practice, no source. The phrasings are our own.
 */
const rows: Readonly<Record<WordedSign, Row>> = {
  'face-or-half-body-numbness': {
    said: ['my face is numb', 'tingling in my cheek and lips', 'half of my face feels dead', 'the whole left side of my body went numb',
      'my left arm and leg feel numb',
      "I can't feel half of my face", 'numb down one side'],
    denied: ['no numbness in my face', "my face isn't numb", 'no tingling of the lips'],
  },
  'sudden-weakness': {
    said: ['my arm suddenly went weak', 'my arm gave out', 'I have no power in my left hand', "I'm not able to move my arm", 'my right hand is paralysed',
      'weakness in my leg', "can't grip with my left hand",
      'I think I am having a stroke'],
    denied: ['no weakness in my arms', 'my arm is not weak', 'never had any weakness of the leg'],
  },
  'drop-attack': {
    said: ['I collapsed', 'woke up on the floor', 'I passed out for a moment', 'blacked out', 'my knees buckled', 'I fainted in the shower'],
    denied: ['I did not faint or collapse', "I haven't blacked out", 'no blackouts'],
  },
  'vision-loss-or-double': {
    said: ['I see double', 'double vision since this morning', "I can't see properly",
      'lost the sight in my right eye', 'my vision went blurry', 'everything went black'],
    denied: ['no double vision', "I don't see double", 'my vision is not blurred'],
  },
  'speech-or-swallowing': {
    said: ['my speech is slurred', "food won't go down", 'I am talking funny', "I can't swallow", 'trouble finding words', 'it is hard to speak',
      "I can't get my words out"],
    denied: ['no trouble swallowing', 'my speech is not slurred', 'no difficulty speaking'],
  },
  'face-droop': {
    said: ['my face is drooping', 'one eyelid hangs down', 'droopy mouth on the left', "I can't close my right eye"],
    denied: ['no facial droop', 'my eyelid is not drooping'],
  },
  'spinning-lasting': {
    said: ['the room is spinning', 'dizzy for 5 minutes now', 'it keeps spinning', "the dizziness won't stop",
      'I am still dizzy', 'dizzy and my arm is numb'],
    denied: ['the room is not spinning', 'no vertigo', 'not dizzy for hours now'],
  },
  'sudden-worst-headache': {
    said: ['worst headache ever', 'sudden severe headache', 'a thunderclap headache', 'headache out of nowhere',
      'it felt as if my head exploded'],
    denied: ['no sudden headache', 'no thunderclap'],
  },
  'chest-pain-or-breathless': {
    said: ['chest pain', 'my chest feels like someone sits on it', 'trouble catching my breath', 'my chest feels tight', "I can't breathe", 'short of breath',
      'there is a pressure on my chest', 'trouble breathing'],
    denied: ['no chest pain', 'my chest does not hurt', 'not short of breath'],
  },
  'saddle-bladder-bowel': {
    said: ['numb between my legs', 'no feeling when I wipe', "I haven't been able to pee", "I can't pee", 'lost control of my bladder', 'tingling in the groin',
      'I wet myself', 'both my legs are numb'],
    denied: ['no numbness between the legs', 'no bladder problems', 'not incontinent'],
  },
  'fever-stiff-neck': {
    said: ['fever and a stiff neck', 'I have a fever. My neck is so stiff.',
      "high temperature and I can't get my chin to my chest"],
    denied: ['no fever and no stiff neck', 'neck is stiff, no fever'],
  },
  'dangerous-trauma': {
    said: ['fell off a ladder', 'a car hit me', 'I fell down the stairs', 'car crash yesterday', 'hit my head on the door',
      'I was thrown off a horse', 'tripped and now my hand tingles',
      'I fell 2 metres', 'I fell over and have severe neck pain'],
    denied: ['no car crash', 'I did not hit my head', 'never fell off a ladder'],
  },
  'head-dropping': {
    said: ['my head keeps falling forward', 'I cannot hold my head up', 'it feels as if my head were falling off',
      'my chin sinks onto my chest'],
    denied: ['my head does not drop forward', 'no head drop'],
  },
  'self-harm': {
    said: ['I want to kill myself', 'I want to die', 'thinking of suicide', "I don't want to be here any more",
      'everyone would be better off without me'],
    denied: ['not suicidal', 'no thoughts of suicide'],
  },
  'being-hurt': {
    said: ['my husband hits me', 'someone attacked me', "I don't feel safe at home", 'I am afraid of my partner',
      'my dad pushed me down'],
    denied: ['nobody hits me', 'no domestic violence'],
  },
  'arm-numbness': {
    said: ['my arm is numb', 'tingling in my fingers', 'pins and needles in the left hand', "can't feel my hand",
      'no feeling in my fingers', 'numb', 'my arm fell asleep during the hold',
      'the numbness spread to my thumb'],
    denied: ['no tingling', "isn't numb", 'no pins and needles in my hand', 'my hand is not numb'],
  },
  'slow-weakness': {
    said: ['my arm is gradually getting weaker', 'weakness in my hand over the last months',
      'my leg slowly becomes weaker'],
    denied: ['my arm is not getting weaker', 'no gradual weakness of the hand'],
  },
  'clumsy-hands': {
    said: ['my hands are clumsy', 'I keep dropping things', 'trouble with buttons', 'numbness in both hands',
      'my handwriting got worse'],
    denied: ['hands are not clumsy', 'no clumsiness'],
  },
  'electric-shock': {
    said: ['electric shock down my spine', 'like electricity when I look down',
      'a jolt down my back when I bend my neck'],
    denied: ['no electric shocks', 'no electric feeling when I bend'],
  },
  'unsteady-walking': {
    said: ['I am unsteady on my feet', "I can't walk straight", 'I keep losing my balance', 'my legs feel stiff',
      'trouble walking'],
    denied: ['not unsteady on my feet', 'no trouble walking', 'no balance problems'],
  },
  'light-headed': {
    said: ['I feel dizzy', 'a bit light-headed', 'I feel sick', 'felt faint', 'nearly passed out', 'nauseous',
      'my head is spinning'],
    denied: ['not dizzy at all', 'without any dizziness', "I don't feel sick"],
  },
  'pain-unlike-any': {
    said: ['a headache unlike any other', 'a new kind of headache', 'I have never had a headache like this',
      'neck pain like never before', 'terrible headache'],
    denied: ['not a headache like never before', 'no new kind of headache'],
  },
  'pulsing-ear-noise': {
    said: ['I hear my heartbeat in my ear', 'a whooshing noise in my left ear', 'my ear is throbbing in time with my pulse'],
    denied: ['no whooshing in my ear', 'I do not hear my pulse in my ear'],
  },
  'other-trauma': {
    said: ['I had a fall', 'I tripped', 'fell over in the garden', 'bumped my neck', 'got elbowed in the neck'],
    denied: ['no falls', "I didn't fall over", 'no fall, no knocks'],
  },
  'wound-change': {
    said: ['my wound is oozing', 'the scar is hot and swollen', 'pus from the incision'],
    denied: ['the wound is not red', 'no discharge from the wound'],
  },
  'severe-pain-now': {
    said: ['I am in agony, it is unbearable', 'unbearable neck pain', 'the neck pain is excruciating, severe pain'],
    denied: ['no severe pain', 'not in agony'],
  },
  'two-illness-signs': {
    said: ['I have a fever and feel unwell', 'weight loss and night pain', 'lost weight. pain wakes me at night.'],
    denied: ['no fever and no weight loss', 'no night pain, not unwell'],
  },
  'weight-loss': {
    said: ['I am losing weight', 'unexplained weight loss', 'lost 6 kg since May'],
    denied: ['no weight loss', 'not losing weight'],
  },
  'night-pain': {
    said: ['pain at night', 'the pain wakes me', 'woken by pain', "can't sleep because of the pain"],
    denied: ['no pain at night', 'no night pain'],
  },
  fever: {
    said: ['I have a fever', 'running a temperature', 'chills since last night'],
    denied: ['no fever', 'not feverish'],
  },
  'feeling-ill': {
    said: ['I feel unwell', "I'm not feeling well", 'I feel ill', 'think I have the flu'],
    denied: ['not ill', 'I do not feel unwell'],
  },
}

const table = (kind: keyof Row): readonly (readonly [WordedSign, string])[] =>
  wordedSigns.flatMap((sign) => rows[sign][kind].map((text) => [sign, text] as const))

describe('a sign in words', () => {
  it.each(table('said'))('%s is heard in "%s"', (sign, text) => {
    expect(read(text).redFlags).toContainEqual({ level: signLevels[sign], sign })
  })

  it.each(table('denied'))('%s is not heard in "%s"', (_, text) => {
    expect(surely(text)).toEqual([])
  })

  it.each(wordedSigns)('%s is tested by three phrasings and two denials at least', (sign) => {
    expect(rows[sign].said.length).toBeGreaterThanOrEqual(3)
    expect(rows[sign].denied.length).toBeGreaterThanOrEqual(2)
  })

  it.each(['pain', 'control', 'reserve', 'yesno', 'nothing'] as const)('is heard while %s is awaited, and is no value',
    (awaiting) => {
    expect(read('my arm went numb at 3', awaiting)).toEqual({
      value: null, redFlags: [{ level: 'urgent', sign: 'arm-numbness' }], unsureFlags: [],
      alsoTold: { control: null, reserve: null, isUnfinished: false }, matched: expect.any(Array), sameAsBefore: false, stop: false,
      command: null, isCorrection: false, understood: true,
    })
  })

  it('comes worst level first, each sign once', () => {
    expect(surely('I have a fever, my hand tingles, tingling in the fingers too, and I see double')).toEqual(
      ['vision-loss-or-double', 'arm-numbness', 'fever'])
  })
})
