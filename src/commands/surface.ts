/** What a command may touch of the process it runs in. */
export interface Surface {
  readonly environment: Readonly<Record<string, string | undefined>>
  readonly print: (line: string) => void
  /** One line on standard error. */
  readonly complain: (line: string) => void
  /** Standard error of a terminal, for progress; null where nobody watches. */
  readonly terminal: ((text: string) => void) | null
}
