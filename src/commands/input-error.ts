/** Bad input: one clear line with the mend, exit status 2. */
export class InputError extends Error {
  readonly code = 'input-unusable'
  constructor(message: string, options?: ErrorOptions) {
    super(message, options)
    this.name = 'InputError'
  }
}
