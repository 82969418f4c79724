// The wordings are our own; which sign they stand for follows the lists of tests/conversation/reading/signs.test.ts.
import { describe, expect, it } from 'vitest'
import { read, surely } from './reading-of.ts'

/** Frightened, old, dictated, joking, behind a number or a "no"; from Ireland, Scotland, India, America, Australia. */
const told: Readonly<Record<string, readonly string[]>> = {
  'arm-numbness': [
    'my fingers are tingling', '2 and my thumb went numb', 'pins and needles in me hand', 'hand keeps going dead',
    'forearm feels like cotton wool', 'cant feel my little finger', 'fizzing down the arm',
    'arm went to sleep and hasnt woke up', 'tingling is there in left hand sir', 'steady, but my fingertips have gone numb',
    'hand feels like a balloon, no feeling', 'no feeling in my fingers', 'my hand is buzzing', '2 tingly fingers',
    'pinky is numb', 'arm fell asleep', 'static in my hand',
  ],
  'slow-weakness': [
    'my arm is getting weaker every week', 'i can lift less and less with my left arm', 'grip is slowly going',
    'leg has been getting feebler over the last months', 'cant open jars like i could, its been creeping up for weeks',
    'right hand weaker than last month', 'day by day less power in my arm', 'my hand is losing strength bit by bit',
    'my left arm gets weaker by the week', 'losing power in my hand over months', 'my leg has slowly gone weak',
  ],
  'clumsy-hands': [
    'i keep dropping things', 'cant do my buttons up', 'fingers wont work the keys', 'my writing has gone to pot',
    'third mug ive smashed this week', 'fumbling with my zip', 'hands have gone stupid, cant text', 'spill my tea every time',
    "i'm all thumbs lately", 'cant thread a needle any more my hands dont do it', 'knife and fork are a struggle now',
    'not able to button the shirt since few days', 'cant hold a pen properly', 'dropped two cups today',
    'texting takes me forever now my fingers are useless', 'buttons are impossible',
  ],
  'electric-shock': [
    'zap down my spine when i bend forward', 'like touching an electric fence', 'electric current goes down my back',
    'jolt down both legs when i look down', 'felt like i was plugged in the socket', 'buzz runs from neck to toes',
    'lightning down me arms', 'got a shock right through me when i nodded', 'static shooting down my back',
    'electric shock down my back', 'bending my neck zaps me', 'like sticking my finger in a socket',
    'tingle shoots down my spine when i look down',
  ],
  'unsteady-walking': [
    'i keep bumping into walls', 'legs feel like jelly', 'walking like ive had a few', 'my balance has gone',
    'holding on to the furniture', 'stiff legs when i walk', 'i nearly topple when i turn', 'feet dont go where i put them',
    'staggering about the place', "i'm veering to the left when i walk", 'not steady while walking since 2 days',
    'legs are not my own on the stairs, all over the place', 'walk like a drunk sailor', 'i wobble when i walk',
    'keep tripping over my own feet', 'my legs are stiff and wont go', 'balance is gone', 'cant walk in a straight line',
  ],
  'light-headed': [
    'feeling faint', 'im a bit lightheaded', 'nearly passed out', 'saw stars when i stood up', 'woozy after that one',
    'going to be sick', 'feel queasy', 'head went all swimmy', 'came over all funny and had to sit', 'giddy feeling is there',
    'bit of a head rush', 'nearly fainted', 'dizzy when i stood up', 'bit giddy', 'feel sick', 'room went swimmy for a second',
  ],
  'pain-unlike-any': [
    'never had pain like this before', 'this is a new kind of headache', 'not my usual headache at all',
    'pain is totally different to normal', 'it hurts in a way it never has', 'neck pain like nothing ive known',
    'a headache ive not had before', 'strange new ache up the back of my head', 'never felt a pain like it', 'odd new headache',
  ],
  'pulsing-ear-noise': [
    'whooshing in my ear', 'i can hear my heartbeat in my ear', 'ear is thumping in time with my pulse',
    'thumping noise in right ear', 'like a washing machine in my ear going with my heart', 'swishing sound in the left ear',
    'my pulse is beating in my ear', 'whoosh whoosh in my left ear',
  ],
  'other-trauma': [
    'tripped over the dog', 'slipped in the shower', 'someone rear ended me at the lights', 'fell over in the garden',
    'had a wee tumble', 'took a knock to the neck at football', 'someone walked into me and jarred my neck',
    'came a cropper on the ice', 'bumped my head getting in the car', 'walloped me head on the boot of the car',
    'the bus braked and my head whipped forward', 'copped a footy to the head', 'i had a fall yesterday',
    'slipped on the ice and landed on my bum', 'got bumped from behind in the car', 'fell off the chair',
  ],
  'wound-change': [
    'my scar has opened', 'stitches are weeping', 'redness around the cut', 'theres pus', 'the wound smells',
    'yellow stuff coming out of my incision', 'dressing is soaked through', 'scar is hot and swollen',
    'since the operation something new is happening', 'lump by my scar getting bigger', 'my wound is leaking',
    'scar gone red and hot', 'stitches burst',
  ],
  'severe-pain-now': [
    'the pain is unbearable', 'excruciating', 'i am in agony', 'im crying with the pain', 'cant take this pain',
    'killing me the neck is, worst pain ever', 'pain through the roof', 'screaming in pain', 'its pure torture my neck',
    'fierce pain altogether, cant bear it', 'paining too much sir cannot tolerate', 'cant stand the pain', 'agony',
    'pain is killing me', 'pain so bad im crying',
  ],
  'two-illness-signs': [
    'fever and losing weight', 'night sweats and weight falling off me', 'had cancer before and now the pain wakes me at night',
    'feel really ill and have a temperature', 'lost a stone without trying and pain keeps me up', '38.9 and shivering',
    'fever and feel dreadful', 'lost weight and sweats at night',
  ],
  'fever': [
    'ive got a fever', 'temp is 38.5', '39 on the thermometer', 'im burning up', '38.7, boiling hot',
  ],
  'night-pain': [
    'the pain wakes me every night', 'cant sleep for the neck',
  ],
  'weight-loss': [
    'losing weight and dont know why',
  ],
  'feeling-ill': [
    'i feel really ill', 'coming down with something',
  ],
}

const rows = Object.entries(told).flatMap(([sign, texts]) => texts.map((text) => [sign, text] as const))

describe('a sign below an emergency told in anybody’s words', () => {
  it.each(rows)('%s is heard in "%s", and no value', (sign, text) => {
    expect(surely(text, 'pain')).toContain(sign)
    expect(read(text, 'pain').value).toBeNull()
  })
})
