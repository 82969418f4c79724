import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { parse } from 'yaml'
import { z } from 'zod'
import { alertLevels, type AlertLevel } from '#src/domain/triage.ts'

/**
 * The parts of a language. By the first two the lexicon is mended, and from them the weights of suspicion are learnt: the first
 * it has to hear whole, the larger second as far as a test says. By the third both are only judged.
 */
export const parts = ['tuned', 'corpus', 'held-out'] as const
export type Part = (typeof parts)[number]

/** Every language that has a lexicon. */
export const languages: readonly string[] = readdirSync(new URL('../../../../content/lexicon/', import.meta.url))
  .map((file) => file.replace(/\.yaml$/, ''))

const awaitings = ['pain', 'control', 'reserve', 'yesno', 'nothing'] as const

const message = z.strictObject({
  text: z.string().min(1),
  awaiting: z.enum(awaitings),
  /** What answers the question; left out where nothing does, as in every message that tells of a sign. */
  value: z.union([z.number(), z.boolean(), z.enum(['steady', 'shaky', 'lost'])]).optional(),
  /** Said to be so now or new. Ids of one level that fit the same words alike are joined by "|". */
  signs: z.array(z.string()).default([]),
  /** Feared, asked, past, vague, somebody else's or in jest: a careful nurse would ask. */
  asks: z.array(z.string()).default([]),
  stop: z.boolean().default(false),
})

/** One message as a person labelled it, who did not know how it would be read. */
export type LabelledMessage = z.infer<typeof message>

const triage = z.object({ signs: z.array(z.object({ id: z.string(), level: z.enum(alertLevels) })) })

/** The level of every sign, by id. */
export const levels: ReadonlyMap<string, AlertLevel> = new Map(
  triage.parse(parse(textOf('../../../../content/triage.yaml'))).signs.map(({ id, level }) => [id, level]),
)

export function hasMessages(language: string, part: Part): boolean {
  return existsSync(new URL(`./${language}.${part}.yaml`, import.meta.url))
}

/** Throws where a file is missing or is not of this shape. */
export function messagesOf(language: string, part: Part): readonly LabelledMessage[] {
  return z.array(message).parse(parse(textOf(`./${language}.${part}.yaml`)))
}

/** The ids of which one has to be read. */
export function alternatives(label: string): readonly string[] {
  return label.split('|')
}

function textOf(path: string): string {
  return readFileSync(new URL(path, import.meta.url), 'utf8')
}

/** What the weights of suspicion are learnt from. */
export function learntFrom(language: string): readonly LabelledMessage[] {
  return parts.filter((part) => part !== 'held-out').flatMap((part) => messagesOf(language, part))
}
