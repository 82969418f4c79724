// How much of what comes in is taken, whatever a network, a forged call or a server of somebody's own lets through.

/** UTF-16 units; the Bot API's limit for a text (core.telegram.org/bots/api#sendmessage), kept for every network. */
export const longestText = 4096
/** Bytes of UTF-8; the Bot API's limit for a button's data (core.telegram.org/bots/api#inlinekeyboardbutton). */
export const longestData = 64
/** The Bot API's limit for a start payload (core.telegram.org/bots/features#deep-linking). */
export const longestToken = 64

/**
 * Marks that make what follows be read from the other side (Unicode UAX #9, embeddings, overrides and isolates). In an alert
 * they could turn a client's words, and what stands beside them, into others. Writing from right to left needs none of them.
 */
const turningMarks = /[\u202A-\u202E\u2066-\u2069]/g
const controls = /[^\P{Cc}\n\t]/gu

/** Cut where it is too long, and never within a character; without marks and controls that nobody types. */
export function boundText(text: string): string {
  const cut = text.slice(0, longestText).replace(turningMarks, '').replace(controls, '')
  if (text.length <= longestText) return cut
  return /[\uD800-\uDBFF]$/.test(cut) ? cut.slice(0, -1) : cut
}

/** Data longer than any button's is nobody's, and cutting it could make it somebody's. */
export function boundData(data: string): string {
  // No character takes less than a byte, so that a very long one need not be measured.
  return data.length <= longestData && new TextEncoder().encode(data).length <= longestData ? data : ''
}

/** One more is kept, so that a longer one cannot match an invitation. */
export function boundToken(token: string): string {
  return token.slice(0, longestToken + 1)
}
