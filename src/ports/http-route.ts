/** One path of the listener that the process opens for others. */
export interface HttpRoute {
  /** Exactly this path, whatever query follows it. */
  readonly path: string
  readonly method: 'GET' | 'POST'
  /** Looked at before anything is read: the answer that turns the caller away, or null. */
  refuse(headers: HttpHeaders): HttpAnswer | null
  /** `body` is empty where none came. A throw is answered with 500. */
  answer(body: string): Promise<HttpAnswer>
}

/** By lower-case name, as node gives them. */
export type HttpHeaders = Readonly<Record<string, string | readonly string[] | undefined>>

export interface HttpAnswer {
  readonly status: number
  readonly body: string
  /** Plain text by default. */
  readonly type?: string
  readonly headers?: Readonly<Record<string, string>>
}
