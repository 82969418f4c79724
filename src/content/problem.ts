/** One thing wrong in a file, where it stands and how it is mended. Never quotes what a person answered. */
export interface Problem {
  readonly file: string
  /** Counted from 1. */
  readonly line: number
  /** E.g. `ladders[0].rung`; empty for the file as a whole. */
  readonly path: string
  readonly message: string
  readonly mend: string
}

/** Content or a plan cannot be used; every problem that was found is listed. */
export class ContentError extends Error {
  readonly code = 'content-unusable'
  readonly problems: readonly Problem[]
  constructor(problems: readonly Problem[]) {
    super(problems.map(formatProblem).join('\n'))
    this.name = 'ContentError'
    this.problems = problems
  }
}

export function formatProblem({ file, line, path, message, mend }: Problem): string {
  return `${file}:${line}: ${path === '' ? '' : `${path} `}${message}. ${mend}`
}
