/**
 * One text for one JSON value, whatever order its keys were kept in: the JSON Canonicalization Scheme (RFC 8785), keys in
 * the order of their UTF-16 code units. Half a character, which the scheme leaves out, stays escaped as JSON has it.
 */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map((one) => canonicalJson(one ?? null)).join(',')}]`
  if (value === null || typeof value !== 'object') return JSON.stringify(value)
  const members = Object.entries(value).filter(([, member]) => member !== undefined)
  const texts = members.sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, member]) => `${JSON.stringify(key)}:${canonicalJson(member)}`)
  return `{${texts.join(',')}}`
}
