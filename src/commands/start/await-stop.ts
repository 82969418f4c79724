/** Supervisors kill after ten seconds (our contract); whatever is committed by then is safe, what is not sent stays owed. */
const cutShortAfterMs = 9_500

export interface StopOptions {
  /** The first signal: end in good order. */
  readonly asked: () => void
  /** The order took too long, or somebody asked twice: end at once with this status. */
  readonly cutShort: (status: number) => void
}

/** Listens for SIGINT and SIGTERM until it is called off; the clock runs from the first of them. */
export function awaitStop({ asked, cutShort }: StopOptions): { callOff(): void } {
  let isAsked = false
  const onSignal = (): void => {
    if (isAsked) return cutShort(1)
    isAsked = true
    // Not what keeps the process alive.
    setTimeout(() => cutShort(0), cutShortAfterMs).unref()
    asked()
  }
  const signals = ['SIGINT', 'SIGTERM'] as const
  for (const signal of signals) process.on(signal, onSignal)
  return {
    callOff() {
      for (const signal of signals) process.off(signal, onSignal)
    },
  }
}
