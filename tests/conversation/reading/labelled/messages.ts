import { existsSync, readFileSync } from 'node:fs'
import { parse } from 'yaml'
import { z } from 'zod'
import { alertLevels, type AlertLevel } from '#src/domain/triage.ts'

/** The halves of a language: the reader may be mended by the first, and is only judged by the second. */
export const halves = ['tuned', 'held-out'] as const
export type Half = (typeof halves)[number]

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

export function hasMessages(language: string, half: Half): boolean {
  return existsSync(new URL(`./${language}.${half}.yaml`, import.meta.url))
}

/** Throws where a file is missing or is not of this shape. */
export function messagesOf(language: string, half: Half): readonly LabelledMessage[] {
  return z.array(message).parse(parse(textOf(`./${language}.${half}.yaml`)))
}

/** The ids of which one has to be read. */
export function alternatives(label: string): readonly string[] {
  return label.split('|')
}

function textOf(path: string): string {
  return readFileSync(new URL(path, import.meta.url), 'utf8')
}
