// Decides: how a source is told to somebody who does not read papers.
// Source: our choice; a year stands for a publication, and the words "our choice" and "common practice" for themselves. Reviewed 2026-11.

/** Research for the idea with a number of our own is told apart from a number that was published. */
export const sourceKinds = ['research', 'research-and-choice', 'practice', 'choice'] as const
export type SourceKind = (typeof sourceKinds)[number]

export function sourceKindOf(source: string): SourceKind {
  const isPublished = /\b(19|20)\d\d\b/.test(source)
  if (/\bour choice\b/i.test(source)) return isPublished ? 'research-and-choice' : 'choice'
  return isPublished ? 'research' : 'practice'
}
