/** Somebody a pane can show. The name is null for an address that opened an invitation and is not enrolled yet. */
export interface Person {
  readonly address: string
  readonly name: string | null
}

export interface People {
  readonly clients: readonly Person[]
  readonly therapists: readonly Person[]
}

/** The people as the clinic names them, and after them who only has a chat: they came by an invitation. */
export function addStrangers(named: People, addresses: readonly string[]): People {
  const known = new Set([...named.clients, ...named.therapists].map((person) => person.address))
  const strangers = addresses.filter((address) => !known.has(address)).map((address) => ({ address, name: null }))
  return { clients: [...named.clients, ...strangers], therapists: named.therapists }
}
