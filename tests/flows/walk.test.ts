import { describe, expect, it } from 'vitest'
import { flows } from '#flows/registry.ts'
import { metaOf } from '#src/conversation/run-flow.ts'
import { english } from '../conversation/ask-question.ts'
import { answersFrom, asksOf, isDeadEnd, press, questionOf, topOf, write, type Standing } from './walk.ts'
import { walked } from './walked.ts'

const clients = walked.filter(({ document }) => document.kind === 'chart')
const therapists = walked.filter(({ document }) => document.kind === 'desk')

const askingStates = [...flows.values()].flatMap((flow) =>
  Object.keys(flow.machine.states).filter((state) => 'asks' in (metaOf(flow, state) ?? {})).map((state) => `${flow.id}.${state}`),
)

/** The standings in which something does not hold, by what they ask. */
function failing(standings: readonly Standing[], holds: (standing: Standing) => boolean): readonly string[] {
  return standings.filter((standing) => !holds(standing)).map((standing) => String(asksOf(standing)))
}

/** The reason for what is asked, as worded. */
function reasonOf(standing: Standing): string {
  const top = topOf(standing)
  const flow = top && flows.get(top.flow)
  const meta = top && flow ? metaOf(flow, top.state) : null
  if (meta === null || !('asks' in meta)) throw new Error('nothing is asked')
  return english.words.say(`${meta.words}.why`)
}

const nonsense = 'xylophone teapot'

describe('a walk through every conversation', () => {
  it('reaches every state that asks', () => {
    expect([...new Set(walked.map(asksOf))].toSorted()).toEqual(askingStates.toSorted())
  })

  it('never comes to a dead end, whatever is answered', () => {
    expect(failing(walked.flatMap((standing) => [standing, ...answersFrom(standing)]), (standing) => !isDeadEnd(standing))).toEqual([])
  })

  it('answers every press and every message, if only through the client’s chart', () => {
    expect(failing(walked, (standing) => answersFrom(standing).every(({ said, tells }) => said.length + tells > 0))).toEqual([])
    expect(failing(clients, (standing) => answersFrom(standing).every(({ said }) => said.length > 0))).toEqual([])
  })

  it('answers nonsense with a message and keeps the question, where it is not simply text', () => {
    const asking = walked.filter((standing) => !['text', 'activity'].includes(String(questionOf(standing)?.kind)))
    const keeps = (standing: Standing): boolean => {
      const after = write(standing, nonsense)
      return asksOf(after) === asksOf(standing) && after.said.length === 1 && !isDeadEnd(after)
    }
    expect(failing(asking, keeps)).toEqual([])
  })

  it('answers a text of nothing but blanks with a message and keeps the question', () => {
    const keeps = (standing: Standing): boolean => {
      const after = write(standing, '   ')
      return asksOf(after) === asksOf(standing) && after.said.length === 1
    }
    expect(failing(walked, keeps)).toEqual([])
  })

  it('changes nothing at a press of an earlier question or of no question, and says so', () => {
    const isUnmoved = (standing: Standing, data: string): boolean => {
      const after = press(standing, data)
      return asksOf(after) === asksOf(standing) && after.said.length === 1 && after.document.prompt?.number === standing.document.prompt?.number
    }
    const outdated = ['p:0:yes', 'p:999:done', 'p:1', '', 'x'.repeat(64)]
    expect(failing(walked, (standing) => outdated.every((data) => isUnmoved(standing, data)))).toEqual([])
    expect(failing(walked, (standing) => isUnmoved(standing, `p:${standing.document.prompt?.number}:no such value`))).toEqual([])
  })
})

describe('a client, at every question', () => {
  it('who writes "help" reads the emergency number and is asked the same again', () => {
    const isHelped = (standing: Standing): boolean => {
      const after = write(standing, 'help')
      return asksOf(after) === asksOf(standing) && after.said.join().includes('call 112 now')
    }
    expect(failing(clients, isHelped)).toEqual([])
  })

  it('who writes "why" reads a reason and is asked the same again', () => {
    const isTold = (standing: Standing): boolean => {
      const after = write(standing, 'why')
      return asksOf(after) === asksOf(standing) && after.said.join().includes(reasonOf(standing))
    }
    expect(failing(clients, isTold)).toEqual([])
  })

  it('who writes "stop" is told that it stops, and comes to no further set', () => {
    const stops = (standing: Standing): boolean => {
      const after = write(standing, 'stop')
      return after.said.join().length > 0 && asksOf(after) !== 'session.set' && !isDeadEnd(after)
    }
    expect(failing(clients, stops)).toEqual([])
  })

  it('who writes "stop" as often as it takes comes to the end, save where a call for help is open', () => {
    const ends = (standing: Standing): boolean => {
      let after = standing
      for (let times = 0; times < 4; times += 1) after = write(after, 'stop')
      return asksOf(after) === null || asksOf(after) === 'called.called'
    }
    expect(failing(clients, ends)).toEqual([])
  })

  it('who writes "not today" comes to no set and to no dead end, and no session stays open without a question', () => {
    const leaves = (standing: Standing): boolean => {
      let after = standing
      for (let times = 0; times < 3; times += 1) after = write(after, 'not today')
      const { document } = after
      const hasLeft = document.kind === 'chart' && (document.session === null || document.conversations.some(({ flow }) => flow === 'session'))
      return asksOf(after) !== 'session.set' && hasLeft && !isDeadEnd(after)
    }
    expect(failing(clients, leaves)).toEqual([])
  })

  it('who writes that an arm went numb is locked, or asked whether it is as usual where that is known', () => {
    const isHeard = (standing: Standing): boolean => {
      const after = write(standing, 'my arm went numb')
      const isLocked = after.document.kind === 'chart' && after.document.lock !== null
      return (isLocked || asksOf(after) === 'symptom.known') && after.said.length > 0 && !isDeadEnd(after)
    }
    expect(failing(clients, isHeard)).toEqual([])
  })

  it('who writes of an emergency is locked and asked whether help was called', () => {
    const isLocked = (standing: Standing): boolean => {
      const after = write(standing, 'half my face is drooping')
      return after.document.kind === 'chart' && after.document.lock?.level === 'emergency' && asksOf(after) === 'called.called'
    }
    expect(failing(clients, isLocked)).toEqual([])
  })
})

/** With one direction or one ladder there is nothing to choose before it. */
const firstQuestions = [
  ...['answering.text', 'clearing.assessed', 'disability.items', 'duty.what', 'enrolment.name', 'settling-in.name'],
  ...['measuring.direction', 'measuring.trials', 'placing.ladder', 'placing.dose'],
]

describe('a therapist, at every question', () => {
  it('who writes "help" reads help and is asked the same again', () => {
    const isHelped = (standing: Standing): boolean => {
      const after = write(standing, 'help')
      return asksOf(after) === asksOf(standing) && after.said.join().includes('enrol a client')
    }
    expect(failing(therapists, isHelped)).toEqual([])
  })

  it('who writes "stop" leaves without saving, save while settling in, or is told that this cannot be left', () => {
    const leaves = (standing: Standing): boolean => {
      const after = write(standing, 'stop')
      const isAnswered = after.said.join().length > 0
      return topOf(standing)?.flow === 'settling-in' ? asksOf(after) === asksOf(standing) && isAnswered : asksOf(after) === null && isAnswered
    }
    expect(failing(therapists, leaves)).toEqual([])
  })

  it('who writes "back" is asked an earlier question, and so on to the first', () => {
    const comesToFirst = (standing: Standing): boolean => {
      let after = standing
      for (let times = 0; times < 40; times += 1) after = write(after, 'back')
      return firstQuestions.includes(String(asksOf(after)))
    }
    expect(failing(therapists, comesToFirst)).toEqual([])
  })
})
