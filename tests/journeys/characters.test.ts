// Three people as they are, read whole: what they write, what they read, what their therapist reads. The conversations stand in
// docs/conversations; `npx vitest run tests/journeys/characters.test.ts -u` writes them anew after a change that was meant.
import { describe, expect, it } from 'vitest'
import { inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'
import { WrittenConversation } from '#tests/support/written-conversation.ts'

function introduced(title: string, text: string, conversation: WrittenConversation): string {
  return `# ${title}\n\n${text}\n\n${conversation.toString()}`
}

describe('a sarcastic client', () => {
  const clinic = inFirstSet()
  const conversation = new WrittenConversation(clinic)
    .write('oh wow, another set, what a treat')
    .write('done, sadly')
    .write('a solid 11 out of 10, obviously')
    .write('fine. 2.')
    .write('yeah right, my shoulders did all the work')
    .write('a million more')
    .write('3, your majesty')
    .write('this is killing me')
    .write('done')
    .write('zero, I am made of steel')
    .write('nope, steady as a rock, clap for me')
    .write('2 more before I drop dead of boredom')
    .write('oh great, now my face is numb from smiling so much')
    .write('no, I was joking')
  it('is not taken at their word where they joke, and is asked or stopped where a joke names a sign', async () => {
    await expect(introduced('A sarcastic client', 'Jokes are no numbers, and a joke that names a sign is never passed over.', conversation)).toMatchFileSnapshot('../../docs/conversations/sarcastic.md')
    expect(clinic.entries('set').slice(0, 2).map(({ data }) => data.report)).toMatchObject([
      { pain: 2, control: 'lost', reserve: 3, finished: true },
      { pain: 0, control: 'steady', reserve: 2, finished: true },
    ])
    expect(clinic.chart().lock?.level).toBe('emergency')
  })
})

describe('a frightened client', () => {
  const clinic = inFirstSet()
  const conversation = new WrittenConversation(clinic)
    .write('wait something is happening')
    .write('my face feels funny is that bad?? im scared')
    .write('yes my left cheek is numb and it wont go away')
    .write('i dont know what to do')
    .write('i cant call my hands are shaking')
    .passes({ minutes: 10 }, 'ten minutes later')
    .therapistPresses('Acknowledge')
    .write('my neighbour called the ambulance')
  it('is stopped at once, told what to do, and never left alone with a question', async () => {
    expect(clinic.chart().lock?.level).toBe('emergency')
    await expect(introduced('A frightened client', 'In the middle of the first set.', conversation)).toMatchFileSnapshot('../../docs/conversations/frightened.md')
  })
})

describe('a client who answers everything in one sentence', () => {
  const clinic = new JoinedClinic()
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  const conversation = new WrittenConversation(clinic)
    .note()
    .write('ready')
    .write('none of these')
    .write('1')
    .write('done')
    .write('done, pain 2, no wobble, 3 left')
    .write('same as before')
    .write('all done, pain 3 or 4, chin poked out a little on the last one, maybe 2 more')
    .write('skip')
  it('is asked nothing that they have said', async () => {
    expect(clinic.chart().session).toBeNull()
    await expect(introduced('Everything in one sentence', 'A whole session.', conversation)).toMatchFileSnapshot('../../docs/conversations/one-sentence.md')
  })
})
