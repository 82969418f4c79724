const mostTurns = 200_000

/** Lets pending input and output happen until `condition` holds; nothing is waited for by the clock. */
export async function turnUntil(condition: () => boolean, what: string): Promise<void> {
  for (let turn = 0; turn < mostTurns; turn += 1) {
    if (condition()) return
    await new Promise((resolve) => setImmediate(resolve))
  }
  throw new Error(`It did not come about: ${what}`)
}
