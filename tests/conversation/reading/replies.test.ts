import { describe, expect, it } from 'vitest'
import type { Command } from '#src/conversation/reading/read-message.ts'
import { read } from './reading-of.ts'

const yesNo: readonly (readonly [string, boolean | null])[] = [
  ['yes', true], ['Yes!', true], ['y', true], ['yep', true], ['yeah', true], ['👍', true], ['✅', true], ['ok', true],
  ['sure', true], ['of course', true], ['I did', true], ['yes please', true], ['yes, no pain at all', true],
  ['yesss', true], ['I think so', true],
  ['no', false], ['nope', false], ['n', false], ['👎', false], ['not really', false], ['not yet', false],
  ["I haven't", false], ['no thanks', false], ['of course not', false], ["I don't think so", false],
  ['none of these', false], ['never', false], ['no, not this week', false],
  ["no they didn't", false], ['not that I noticed', false], ['yes they did', true],
  ['yes no wait no', false], ['no wait yes', true], ['yes. sorry, no', false], ['yes no', null], ['no yes', null],
  ['maybe', null], ['not sure', null], ["don't know", null], ['no idea', null], ['no problem', null], ['3', null],
  ['', null], ['what?', null],
]

const commands: readonly (readonly [string, Command | null])[] = [
  ['help', 'help'], ['I need help', 'help'], ['/help', 'help'], ['🆘', 'help'], ['why?', 'why'],
  ['why this exercise', 'why'], ['not today', 'not-today'], ["can't today", 'not-today'], ['tomorrow', 'not-today'],
  ['later', 'later'], ['in 10 minutes', 'later'], ['not now', 'later'], ['busy', 'later'],
  ['done', 'done'], ["I'm done", 'done'], ['finished!', 'done'], ['finisched', 'done'], ['skip', 'skip'],
  ['skip this one', 'skip'], ['next', 'skip'], ['ready', 'ready'], ["let's go", 'ready'], ['start', 'ready'],
  ['none of these', 'none'], ['none', 'none'],
  ['something feels wrong', 'symptom'], ['I feel strange', 'symptom'], ['stop', 'stop'], ['the heat helps', null],
  ['well done everyone', null], ['I am not ready', null], ['hello', null], ['', null],
]

const stops: readonly (readonly [string, boolean])[] = [
  ['stop', true], ['STOP!!!', true], ['stooop', true], ['please stop', true], ['I want to stop', true],
  ['enough', true], ["that's enough", true], ['no more', true], ['I quit', true], ['I give up', true], ["I can't go on", true],
  ['I had to stop', true], ['can we stop?', true], ['🛑', true], ['no stop', true],
  ['3, I want to stop', true], ["don't stop", false], ["can't stop smiling", false], ['non-stop', false],
  ['good enough', false], ['easy enough', false], ['not enough weight', false], ['when should I stop?', false],
  ["I won't give up", false], ['no more pain', false], ["the dizziness won't stop", false],
  ['3', false], ['bus stop', false], ['no more than 2', false],
  ["can't make it stop", false],
]

const corrections: readonly (readonly [string, boolean])[] = [
  ['sorry, I meant 2', true], ['I mean 4', true], ['no wait, 3', true], ['oops 4', true], ['actually 3', true],
  ['make that 2', true], ['no, 3', true], ['3', false], ['no', false], ['2 or 3', false], ['no pain', false],
]

describe('a reply in words', () => {
  it.each(yesNo)('awaiting yes or no, "%s" is %s', (text, value) => {
    expect(read(text, 'yesno').value).toBe(value)
  })

  it.each(commands)('"%s" is the command %s', (text, command) => {
    expect(read(text).command).toBe(command)
  })

  it.each(stops)('"%s" wants to stop: %s', (text, stop) => {
    expect(read(text).stop).toBe(stop)
  })

  it.each(corrections)('"%s" corrects an earlier answer: %s', (text, isCorrection) => {
    expect(read(text, 'pain').isCorrection).toBe(isCorrection)
  })

  it('is an answer before it is the command "none"', () => {
    expect([read('none', 'pain').command, read('none', 'nothing').command]).toEqual([null, 'none'])
  })
})
