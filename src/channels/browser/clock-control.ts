/** The demo clinic's clock, which a person at the page may move on. */
export interface ClockControl {
  now(): Promise<ClockReading>
  choices(): Promise<readonly ClockChoice[]>
  /** Resolves once the clock stands there and what fell due has run. */
  move(id: string): Promise<void>
}

export interface ClockReading {
  readonly iso: string
  readonly zone: string
  /** As a person reads it, in the clinic's zone. */
  readonly text: string
}

export interface ClockChoice {
  readonly id: string
  readonly label: string
}

export interface ClockView {
  readonly now: ClockReading
  readonly choices: readonly ClockChoice[]
}

export async function readClock(control: ClockControl): Promise<ClockView> {
  const [now, choices] = await Promise.all([control.now(), control.choices()])
  return { now, choices }
}
