const candidate = /https?:\/\/[^\s<>"']+/g
const tokenPattern = /^[A-Za-z0-9_-]{1,64}$/

/** @typedef {{ kind: 'text', text: string } | { kind: 'link', text: string, token: string }} TextPart */

/**
 * Cuts a text into plain parts and invitation links of this very server; every other address stays plain text.
 *
 * @param {string} text
 * @param {readonly string[]} origins
 * @returns {TextPart[]}
 */
export function splitAtJoinLinks(text, origins) {
  /** @type {TextPart[]} */
  const parts = []
  let end = 0
  for (const match of text.matchAll(candidate)) {
    const written = match[0].replace(/[.,;:!?)\]]+$/, '')
    const token = readJoinToken(written, origins)
    if (token === null) continue
    if (match.index > end) parts.push({ kind: 'text', text: text.slice(end, match.index) })
    parts.push({ kind: 'link', text: written, token })
    end = match.index + written.length
  }
  if (end < text.length) parts.push({ kind: 'text', text: text.slice(end) })
  return parts
}

/** @param {string} written @param {readonly string[]} origins */
function readJoinToken(written, origins) {
  if (!URL.canParse(written)) return null
  const { origin, username, password, pathname, searchParams, hash } = new URL(written)
  const isOwn = origins.includes(origin) && username === '' && password === '' && pathname === '/' && hash === ''
  const names = [...searchParams.keys()]
  return isOwn && names.length === 1 && names[0] === 'join' ? readToken(searchParams.get('join') ?? '') : null
}

/** @param {string} token */
export function readToken(token) {
  return tokenPattern.test(token) ? token : null
}
