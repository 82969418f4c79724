/** An answer of the server: https://core.telegram.org/bots/api#making-requests. */
export interface Answer {
  readonly status: number
  readonly body: Readonly<Record<string, unknown>> | string
}

export interface Refusal {
  readonly code: number
  readonly description: string
  readonly parameters?: Readonly<Record<string, number>>
}

export function ok(result: unknown): Answer {
  return { status: 200, body: { ok: true, result } }
}

export function refusal(code: number, description: string, parameters?: Readonly<Record<string, number>>): Refusal {
  return parameters === undefined ? { code, description } : { code, description, parameters }
}

export function toAnswer({ code, description, parameters }: Refusal): Answer {
  const more = parameters === undefined ? {} : { parameters }
  return { status: code, body: { ok: false, error_code: code, description, ...more } }
}

/** Thrown inside a method; the server answers with it. */
export class Refused extends Error {
  readonly refusal: Refusal
  constructor(code: number, description: string, parameters?: Readonly<Record<string, number>>) {
    super(description)
    this.name = 'Refused'
    this.refusal = refusal(code, description, parameters)
  }
}
