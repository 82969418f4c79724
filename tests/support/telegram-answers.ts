// What the messaging server answers, as status and body.
export type Payload = Readonly<Record<string, unknown>>
export type Answer = readonly [status: number, body: Record<string, unknown> | string]

export function brokenLine(): Promise<never> {
  return Promise.reject(Object.assign(new Error('socket hang up'), { code: 'ECONNRESET' }))
}

export function ok(result: unknown): Answer {
  return [200, { ok: true, result }]
}

export function error(code: number, description: string, parameters: Readonly<Record<string, number>> = {}): Answer {
  return [code, { ok: false, error_code: code, description, parameters }]
}
