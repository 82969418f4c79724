// The wordings are our own; which sign they stand for follows the lists of tests/conversation/reading/signs.test.ts.
import { describe, expect, it } from 'vitest'
import { perhaps, read, surely } from './reading-of.ts'

/** What frightened, joking, hurried or old people may write for a sign, often behind the number or the "no" that was asked. */
const told: Readonly<Record<string, readonly string[]>> = {
  'sudden-weakness': [
    'my leg keeps buckling under me', '2, my arm is limp as a rag', '3 but my foot wont do what I tell it',
    'No but I cant lift my left arm above my head', 'leg drags when I walk', 'my knee just gives way',
    'arm went floppy mid rep', "I can't stand on my left leg", '3. legs turned to jelly out of nowhere',
    '2 reps left and my arm gave out completely', 'legs wont carry me',
  ],
  'vision-loss-or-double': [
    'theres a grey curtain coming down over my left eye', 'I have a hole in the middle of what I see',
    'everything is in a fog all of a sudden', 'like looking down a tunnel', 'half my view is gone',
    'seeing everything twice', 'my eyes keep flicking side to side on their own', 'two of everything on the table',
    'went blind in one eye for a minute', "there's a shadow across my sight", 'my vision is going dark at the edges',
    'half the telly is missing', 'like a shutter coming down on one side', "it's like looking through frosted glass",
    "my eyes won't focus", 'eyes wobble by themselves', 'there are two of you', 'lost vision on the left side',
  ],
  'face-droop': [
    'tea runs out the corner of my mouth', "I'm dribbling on one side", 'my mouth hangs down on the left',
    'one pupil is huge', 'yes, my face has gone all lopsided', 'lower lip is drooping',
    'drink comes out the side of my mouth', 'soup runs down my chin on the left', 'my pupils are different sizes',
  ],
  'speech-or-swallowing': [
    'bits of toast keep getting stuck in my throat', 'water goes down the wrong way every time',
    'I feel really confused, no idea what day it is', 'my speech is all mush', "I can't get the words out",
    'choked on my tea, wont go down', 'my tongue feels too big and I talk funny', 'bread just sits in my gullet',
    'I choke on every sip', 'I dont know where I am', "my wife says I'm talking rubbish and muddled",
    'cant swallow my own spit', 'words come out jumbled',
  ],
  'saddle-bladder-bowel': [
    "I don't notice when I need to pee any more", 'no. I leak a bit of urine when I stand',
    'I push and push but nothing comes out', 'need a wee but it wont come', 'numb between my legs',
    'I wet the bed last night without noticing', "haven't peed since yesterday", 'I had no idea I was peeing',
    'no feeling that my bladder is full', 'standing at the loo and nothing happens', 'cannot empty my bladder at all',
  ],
  'fever-stiff-neck': [
    "neck won't bend and I'm burning up", "can't get my chin to my chest and I have a temp",
    'neck is rigid and Ive got the shivers', 'temperature of 39 and neck like a plank',
  ],
  'severe-pain-now': [
    'pain is unbearable', 'hurts like nothing on earth', 'crying with the pain', 'ow ow ow the pain is horrendous',
  ],
  'other-trauma': [
    'I walked into a lamp post', 'slipped on ice outside the shop', 'got rear-ended at the lights',
    'bumped my head on a shelf', 'I clonked my head on the boot of the car', 'went flying on the wet floor',
    'someone went into the back of my car', 'knocked my head getting in the van',
  ],
  'clumsy-hands': [
    "can't do my buttons up", "I can't turn the key in the lock", 'keep dropping my cup', "can't handle a knife and fork",
    'both hands are numb and clumsy', 'fingers so clumsy I cant text', 'hand has a mind of its own, wont grip',
    'my laces take me forever', 'handwriting looks like a toddlers', 'mugs keep slipping out of my hands',
    'shoelaces are impossible these days',
  ],
  'slow-weakness': [
    'my grip gets less and less', 'my arm is weaker each week', 'every day I can lift less and less with the arm',
  ],
  'unsteady-walking': [
    'legs feel stiff and heavy', "walking like I'm drunk", 'I hold on to the furniture to walk', 'my balance is shot',
    'walking gets worse and worse', 'my legs are like planks', 'I keep veering to the right',
  ],
  'sudden-worst-headache': [
    'headache like being hit with a hammer', 'like a bomb went off in my head', 'pain in my head like a gunshot',
  ],
  'pain-unlike-any': [
    'my head has never hurt like this', 'never felt pain like this in my neck',
  ],
  'dangerous-trauma': [
    'crashed at 70 mph on the motorway', '1. and I fell off the tractor', 'car rolled three times', 'no. fell off my horse',
    'I fell out of the loft',
  ],
  'head-dropping': [
    'it feels like my head will fall off', 'my chin drops onto my chest', 'head too heavy for my neck',
  ],
  'wound-change': [
    'since my operation I have a new pain in the arm', 'stitches have burst', 'scar is hot and red',
  ],
  'two-illness-signs': [
    'had breast cancer, and now losing weight', 'feverish and sweating, been losing weight',
    "I'm in remission from cancer and now night sweats and losing weight",
  ],
  'arm-numbness': [
    '4, lost all feeling in my right foot', 'new tingling since the surgery', 'zero but my arm is numb',
    'its 3 and I cant feel two fingers',
  ],
  'face-or-half-body-numbness': [
    'right side of my face feels frozen', 'half my body went numb', 'the left side of my face tingles',
  ],
  'drop-attack': [
    'came round on the bathroom floor', 'blacked out again', 'Yes I fainted at the till',
    'dropped like a stone in the hall',
  ],
  'spinning-lasting': [
    "the room won't stop spinning", 'dizzy for an hour now',
  ],
  'chest-pain-or-breathless': [
    'chest feels like a vice', "can't get my breath lying down", '5, my chest is tight',
  ],
  'electric-shock': [
    'electric jolt down my back when I look down', 'like a lightning bolt through my spine when I nod',
  ],
  'pulsing-ear-noise': [
    'hear my pulse in my left ear',
  ],
  'weight-loss': [
    'lost two stone without trying',
  ],
  'self-harm': [
    'I want to end it all', 'I want to kill myself',
  ],
  'being-hurt': [
    'my partner punched me', 'he strangled me last night',
  ],
}

/** Near to those in words, and nothing to alarm or to ask about. */
const harmless: readonly string[] = [
  'my legs are tired but fine', 'I held my hands still', 'arms hanging by my sides', 'dropped the band on the floor',
  'the plate hit the floor', 'I ended up on the mat doing the last set', 'I want to go but it is late',
  'I cannot open the app', 'I cannot find the button', 'my chin dropped a little', 'my shoulders crept up',
  'writing this from work', 'I opened the curtain', 'the screen is too small', 'I saw two exercises today',
  'half the set was easy', 'it ran out of battery', 'see you twice a week', 'I feel nothing in my neck',
  'no pain in my head', 'I hold the weight with both hands', 'holding the band is fine',
  'I went down the stairs to get my band', 'I bumped into a friend', 'fell asleep watching tv', 'my eyes are fine',
  'I close my eyes when I train', 'my hands are sweaty', 'I wiped the floor', 'water runs out of the tap',
  'took the dog for a walk', 'walk was nice', 'I walked to work', 'had a cup of tea', 'no numbness, no weakness',
  'my dog pulled on the lead', 'did it like you said', 'I like this exercise', 'like last time', 'smashed the set',
  'my head rested on the pillow', 'head moved a bit', 'the band snapped', 'something popped up on my phone',
  'the cat dropped a mouse', 'temperature is nice outside', 'I am confused about the reps', 'fingers crossed',
  'my arms gave me a good workout', 'feeling strong today', 'legs up on the sofa', 'that was hard work',
  'I was nearly done', 'looking forward to the next one', 'my wife says hi', 'the pain is less and less',
  'sitting on my chair', 'nothing happened', 'it all went well', 'the light in here is nice', 'felt light and easy',
  'all over by nine', 'I need the toilet first', 'nipping to the loo', 'having a wee first', 'sleeping on my side is fine',
  'looked straight ahead', 'can I do it on the floor', 'chin to chest was fine', 'how do I stop it slipping',
  'hands on hips', 'I had to hold on for a minute', 'my daughter was born today', 'what time tomorrow',
  'my trousers are comfy', 'the weather is awful', 'awful weather', 'no new problems since the operation',
  'my op was in May', 'everything is fine since the surgery', 'cutting back on sugar', 'I wear glasses',
  'it is dark outside', 'the room is dark', 'train was late', 'hit a new best', 'the bus was late', 'the car needs petrol',
  'my mum is visiting', 'on a boat this weekend', 'I stumbled on your message', 'typing with one hand',
  'keys are in the car', 'my heart is in it', 'I had a big lunch', 'my neck feels stiff in the mornings',
  'neck is a bit sore', 'bit tired', 'nice and steady',
]

const rows = Object.entries(told).flatMap(([sign, texts]) => texts.map((text) => [sign, text] as const))

describe('a sign in everyday words', () => {
  it.each(rows)('%s is heard in "%s", and no value', (sign, text) => {
    expect(surely(text, 'pain')).toContain(sign)
    expect(read(text, 'pain').value).toBeNull()
  })
})

describe('words near to those of a sign', () => {
  it.each(harmless)('"%s" neither alarms nor asks', (text) => {
    expect([...surely(text), ...perhaps(text)]).toEqual([])
  })
})
