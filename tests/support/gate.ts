/** Something that hangs until it is let go. */
export class Gate {
  readonly opened: Promise<void>
  #open: () => void = () => {}

  constructor() {
    this.opened = new Promise((resolve) => {
      this.#open = resolve
    })
  }

  open(): void {
    this.#open()
  }
}
