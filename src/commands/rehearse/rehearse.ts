// The command: scripts or invented clients, a line each, and a picture of the first of them.
import { createProduct } from '#src/app.ts'
import type { Content, Words } from '#src/content/content.ts'
import { formatProblem } from '#src/content/problem.ts'
import { readPlanToTry } from '#src/content/read-plan.ts'
import { languageOf } from '#src/chart/language-of.ts'
import type { Step } from '#src/chart/step.ts'
import type { Plan } from '#src/domain/plan.ts'
import { InputError } from '../input-error.ts'
import { readInputFile } from '../read-input-file.ts'
import type { Surface } from '../surface.ts'
import type { ClientKind } from './client-kinds.ts'
import { inventClients } from './invent-clients.ts'
import { pictureOf, type Pictured } from './picture-of.ts'
import { createProgress } from './progress.ts'
import { readAnswers } from './read-answers.ts'
import { rehearseInvented, rehearsePlan } from './rehearse-plan.ts'
import { checkPicturePath, writePicture } from './write-picture.ts'

export interface RehearseOptions {
  readonly plan: string
  readonly answers?: string
  readonly virtual?: number
  readonly seed: number
  readonly weeks: number
  readonly kind?: ClientKind
  readonly plot?: string
}

/** One script played: its line, and how it is pictured. */
interface Played {
  readonly printed: object
  readonly pictured: () => Pictured
}

interface Stage {
  readonly plan: Plan
  readonly step: Step
  readonly content: Content
  readonly words: Words
}

export function rehearse(options: RehearseOptions, { print, complain, terminal }: Surface): void {
  checkOptions(options)
  const { content, step } = createProduct('demo')
  const { words } = languageOf(content)
  const { plan, doubts } = readPlanToTry(readInputFile(options.plan), options.plan, content)
  for (const doubt of doubts) complain(formatProblem(doubt))
  const { count, plays } = playsOf(options, { plan, step, content, words })
  const progress = createProgress(count, terminal)
  let isPictured = options.plot === undefined
  for (const { printed, pictured } of plays) {
    print(JSON.stringify(printed))
    if (!isPictured && options.plot !== undefined) writePicture(options.plot, pictureOf(plan, content, words, pictured()))
    isPictured = true
    progress.advance()
  }
  progress.end()
}

function checkOptions({ answers, virtual, kind, plot }: RehearseOptions): void {
  if ((answers === undefined) === (virtual === undefined)) throw new InputError('rehearse needs either --answers FILE or --virtual N.')
  if (answers !== undefined && kind !== undefined) throw new InputError('--kind is for invented clients: use it with --virtual N.')
  if (virtual === 0 && plot !== undefined) throw new InputError('--plot needs a client to show: use --virtual 1.')
  if (plot !== undefined) checkPicturePath(plot)
}

function playsOf(options: RehearseOptions, stage: Stage): { readonly count: number; readonly plays: Iterable<Played> } {
  if (options.answers === undefined) return { count: options.virtual ?? 0, plays: playInvented(options, stage) }
  const { scripts } = readAnswers(options.answers)
  if (options.plot !== undefined && scripts.length !== 1) {
    throw new InputError(`--plot shows one script, and ${options.answers} holds ${scripts.length}: give a file with one.`)
  }
  return { count: scripts.length, plays: playScripts(scripts, stage) }
}

function* playScripts(scripts: ReturnType<typeof readAnswers>['scripts'], { plan, step, content, words }: Stage): Generator<Played> {
  for (const script of scripts) {
    const rehearsal = rehearsePlan(plan, script, step, content)
    const pictured = (): Pictured => ({
      title: words.say('picture.title-scripted', { name: plan.client.name }),
      note: words.say('picture.note-scripted'),
      answers: script.sessions,
      ...rehearsal,
    })
    yield { printed: rehearsal, pictured }
  }
}

function* playInvented({ virtual = 0, seed, weeks, kind }: RehearseOptions, { plan, step, content, words }: Stage): Generator<Played> {
  for (const { client, attendances } of inventClients(plan, content, { count: virtual, seed, weeks, kind: kind ?? null })) {
    const { answers, sessions } = rehearseInvented(plan, attendances, step, content)
    const pictured = (): Pictured => ({
      title: words.say('picture.title-invented', { name: plan.client.name, kind: words.say(`picture.kind.${client.kind}`) }),
      note: words.say('picture.note-invented', { seed, number: client.number }),
      answers: answers.sessions,
      sessions,
    })
    yield { printed: { client, answers, sessions }, pictured }
  }
}
