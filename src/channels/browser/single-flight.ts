export interface SingleFlight {
  /** Asks for a run that begins after this call: now, or once the running one has ended. */
  ask(): void
  /** Resolves when nothing runs and nothing is asked for. */
  settled(): Promise<void>
}

/** Runs a task one at a time; however often it is asked for meanwhile, it runs once more. `run` must not reject. */
export function createSingleFlight(run: () => Promise<void>): SingleFlight {
  let running: Promise<void> | null = null
  let isAskedAgain = false

  async function runWhileAsked(): Promise<void> {
    do {
      isAskedAgain = false
      await run()
    } while (isAskedAgain)
    running = null
  }

  return {
    ask() {
      if (running === null) running = runWhileAsked()
      else isAskedAgain = true
    },
    async settled() {
      while (running !== null) await running
    },
  }
}
