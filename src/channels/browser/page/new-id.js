/**
 * A random name of `length` characters of 0-9a-z. (`crypto.randomUUID` is missing on plain http beyond this machine.)
 *
 * @param {number} length
 */
export function newId(length) {
  const bytes = crypto.getRandomValues(new Uint8Array(length))
  return [...bytes].map((byte) => (byte % 36).toString(36)).join('')
}
