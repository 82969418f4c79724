/** Something that runs until it is stopped. */
export interface Started {
  /** What whoever started it should read. */
  readonly lines: readonly string[]
  stop(): Promise<void>
}
