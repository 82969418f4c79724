import { describe, expect, it } from 'vitest'
import { perhaps, surely } from './reading-of.ts'

/** Everyday sentences with the words of a sign in them. */
const plain: readonly string[] = [
  'great set', 'no dizziness thanks', 'i dropped in to say hi', 'my heart goes out to you', 'i have a stitch from laughing',
  'left arm done, right arm next', 'the weights are heavy', 'head back down', 'i cannot find my band', 'my kid drew on my face',
  'smiling here', 'two more to go', 'had a nice long walk', 'walking the dog', 'passed my exam', 'it went like a dream',
  'back and neck feel great', 'legs feel good', 'i hit my target', 'sleepy today', 'i cant come tomorrow',
  'i would not miss it', 'all grand here', 'need to close the window', 'my hand is holding the phone', 'hands are cold',
  'hungry', 'shoulders stayed put', 'it is getting dark early', 'eyes closed for this one?', 'my glasses are dirty',
  'see what i mean', 'the floor is cold', 'my room is a mess', 'can i lie on the bed', 'food was great', 'drank my water',
  'words fail me, that was great', 'can you say that again', 'i was on the floor doing the exercise', 'got down on the floor',
  'i am on the mat', 'arms up and down ten times', 'could not lift my head higher than that',
  'i cannot push with my head today', 'the strap broke', 'neck moved', 'i have no idea how many', 'my arms are not tired',
  'my hands do not touch the mat', 'shoulders are not moving', 'my leg is not used in this one', 'should my arms not move',
  'i used my arm to push up from the chair', 'my teeth were clenched', 'i wake at six', 'not one wobble',
  'dinner went down well', 'my battery died', 'no more questions', 'cut my hair', 'cut my finger chopping onions',
  'i ran into my neighbour', 'car is in the garage', 'my bike is in the shed', 'parked the car', 'i took a tablet for the pain',
  'took two paracetamol', 'want to go to bed', 'i do not want to lose the habit', 'i could murder a curry',
  'knocking off work early', 'my face is red and sweaty', 'washed my face and ready to go', 'left side done now the right side',
  'right side feels great', 'pain> my arms are nicely tired, 2', 'i lifted my arm to wave', 'no numbness no weakness',
  'not numb at all', 'the cushion keeps slipping', 'my phone died', 'the band gave out and snapped', 'i went down to the shop',
  'went down the stairs to get my band', 'i lie flat on the floor for this one right',
  'hit the floor at six this morning, early bird', 'i passed out the flyers at work', 'i slept like a log, out cold by ten',
  'popping out for a minute', 'i will be out for about ten minutes', 'dropped the weight on the floor',
  'woke up on the wrong side of bed', 'cant see the button', 'i see two exercises today', 'can i see the picture again',
  'double checked the setup', 'half the page didnt load', 'the picture of the exercise is blurry', 'see you tomorrow',
  'nobody can do this at six in the morning', 'talking rubbish at work all day haha', 'i dont know what to say',
  'lost for words', 'my voice note didnt send', 'swallowed a fly lol', 'eating dinner then starting', 'no trouble swallowing',
  'kept my chin tucked', 'put my chin on my chest as told', 'my chin dropped a bit on the last rep? no it was fine', 'smile',
  'made me smile', 'only one side today?', 'the walls are thin here', 'moving house this week', 'spin class later',
  'everything is going well', 'everything is going grand', 'not dizzy', 'no headache', 'head is clear',
  'this set killed me lol', 'bang on time', 'the door banged', 'heard a crack in the wood of the chair', 'chest day tomorrow',
  'put the band around my chest of drawers', 'i am out of band', 'heart set on finishing', 'need the toilet, back in five',
  'off to the loo', 'going for a wee first', 'wet hair from the shower', 'bladder fine', 'nothing leaks but my tap',
  'water bottle leaked', 'no fever', 'hot day here', 'its 38 degrees outside', 'boiling in this room',
  'my neck is a bit stiff in the morning', 'my car failed its test', 'driving to work', 'fell asleep on the sofa',
  'kids fell asleep', 'head down and get on with it', 'keep my head up', 'kept my head up high', 'cutting the grass later',
  'end of my session', 'dying for a cuppa', 'this will be the death of me lol', 'i want to be here on time',
  'i dont want to do it today', 'dunno', 'i do not mind', 'dont stop', 'my husband hit the snooze button',
  'my son kicked the ball to me', 'he threw me a towel', 'my mate threw a party', 'safe journey', 'i feel safe doing this',
]

/** Vague, past, feared, of somebody else, or low in mood. */
const vague: readonly string[] = [
  'my mum had a stroke in 2010', 'dad fell off a ladder last year', 'my wife is dizzy', 'used to get numb hands years ago',
  'is it bad if my arm goes numb', 'i was in a car crash as a kid', 'what if i faint', 'i feel really low',
  'everything feels grey lately', 'my arm feels funny', 'my leg is not right', 'feel a bit off', 'fed up with everything',
  'my hand feels weird', 'things are tense with himself at home',
]

describe('a sentence near to a sign', () => {
  it.each(plain.map((text) => [text]))('"%s" neither alarms nor asks', (text) => {
    expect([...surely(text), ...perhaps(text)]).toEqual([])
  })

  it.each(vague.map((text) => [text]))('"%s" makes the bot ask and does not alarm', (text) => {
    expect(surely(text)).toEqual([])
    expect(perhaps(text).length).toBeGreaterThan(0)
  })
})
