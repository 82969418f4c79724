import { describe, expect, it } from 'vitest'
import { flows } from '#flows/registry.ts'
import { newChart } from '#src/chart/chart.ts'
import { actButton } from '#src/chart/client/alert-message.ts'
import { documentIdFrom } from '#src/chart/digest.ts'
import { Draft } from '#src/chart/draft.ts'
import { actKinds, type ActKind } from '#src/chart/event.ts'
import { readMatter } from '#src/chart/route.ts'
import { knownConditions } from '#src/content/known-ids.ts'
import type { Language } from '#src/content/content.ts'
import { metaOf } from '#src/conversation/run-flow.ts'
import type { Question } from '#src/conversation/question.ts'
import { buttonsOf } from '#src/conversation/questions/registry.ts'
import { ladderIds } from '#src/domain/direction.ts'
import { brandAs, type EventId } from '#src/domain/identifier.ts'
import { product } from '#tests/support/telegram-clinic.ts'

const { content } = product
/** Beyond what a chart reaches in years of daily sessions. */
const highPrompt = 999_999
const highRevision = 999_999

// 1-64 bytes: https://core.telegram.org/bots/api#inlinekeyboardbutton, callback_data.
function isWithinLimit(data: string): boolean {
  const bytes = Buffer.byteLength(data)
  return bytes >= 1 && bytes <= 64
}

const questions: readonly (readonly [where: string, question: Question])[] = [...flows.values()].flatMap((flow) =>
  Object.keys(flow.machine.states).flatMap((state) => {
    const meta = metaOf(flow, state)
    return meta !== null && 'asks' in meta ? [[`${flow.id}.${state}`, meta.asks] as const] : []
  }),
)

/** Whatever an open question may offer: every id of the content. */
const openValues: readonly string[] = [
  ...content.triage.groups,
  ...content.triage.signs.map((sign) => sign.id),
  ...knownConditions(content.triage.gates),
  ...content.restrictions,
  ...content.exercises.keys(),
  documentIdFrom('desk', brandAs<EventId>('x')),
]

function buttonsIn({ words, lexicon }: Language, question: Question): readonly { readonly label: string; readonly value: string }[] {
  const own = 'options' in question ? question.options : openValues.map((value) => ({ value, label: value }))
  const options = own.map((option) => ({ value: option.value, label: 'words' in option && option.words ? words.say(option.words) : option.value, saidBy: [], saidAs: [] }))
  return buttonsOf(question, { words, lexicon, options, chosen: [] }).flat()
}

describe('every button of every language', () => {
  const buttons = [...content.languages.values()].flatMap((language) =>
    questions.flatMap(([where, question]) => buttonsIn(language, question).map((button) => ({ where, ...button }))),
  )

  it('has data of 1 to 64 bytes, however many questions were asked before it', () => {
    expect(questions.length).toBeGreaterThan(40)
    expect(buttons.length).toBeGreaterThan(300)
    expect(buttons.filter(({ value }) => !isWithinLimit(`p:${highPrompt}:${value}`))).toEqual([])
  })

  it('has a label with words in it', () => {
    expect(buttons.filter(({ label }) => label.trim() === '' || label.includes('{'))).toEqual([])
  })
})

describe('a therapist’s button on a client’s matter', () => {
  const abouts: Record<ActKind, readonly string[]> = {
    acknowledge: ['a99999'],
    contacted: ['a99999'],
    clear: ['a99999'],
    permit: ladderIds.map((ladder) => `rung-9-${ladder}`),
    decline: ladderIds.map((ladder) => `rung-9-${ladder}`),
    resume: ladderIds.map((ladder) => `lowest-${ladder}`),
    review: ['now'],
    look: ['now'],
    measure: ['now'],
    place: ['now'],
    score: ['now'],
    explain: ['now'],
    loads: ['now'],
    answer: ['now'],
  }

  it.each(actKinds)('%s fits into 64 bytes and is read back whole', (act) => {
    const chart = { ...newChart(documentIdFrom('chart', brandAs<EventId>('x'))), revision: highRevision }
    const draft = new Draft(chart, { id: brandAs<EventId>('x'), kind: 'wake' }, 0, { content, flows })
    const datas = abouts[act].map((about) => actButton(draft, act, about, 'label').data)
    expect(datas.filter((data) => !isWithinLimit(data))).toEqual([])
    expect(datas.map(readMatter)).toEqual(abouts[act].map((about) => ({ chart: chart.id, act, about, seenRevision: highRevision })))
  })
})
