/** One element of a picture; a string is text. */
export interface SvgElement {
  readonly name: string
  readonly attributes: Readonly<Record<string, string | number>>
  readonly children: readonly SvgNode[]
}

export type SvgNode = SvgElement | string

export function element(name: string, attributes: SvgElement['attributes'], children: readonly SvgNode[] = []): SvgElement {
  return { name, attributes, children }
}

export function group(children: readonly SvgNode[], attributes: SvgElement['attributes'] = {}): SvgElement {
  return element('g', attributes, children)
}

export function renderSvg(node: SvgNode): string {
  if (typeof node === 'string') return escapeXml(node)
  const attributes = Object.entries(node.attributes).map(([name, value]) => ` ${name}="${escapeXml(shorten(value))}"`)
  const start = `<${node.name}${attributes.join('')}`
  return node.children.length === 0 ? `${start}/>` : `${start}>${node.children.map(renderSvg).join('')}</${node.name}>`
}

/** A hundredth of a pixel is nothing to see. */
function shorten(value: string | number): string {
  return typeof value === 'number' ? String(Math.round(value * 100) / 100) : value
}

const entities: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' }

/** Names come from plans, and XML has no way at all to write some characters: they are replaced. */
function escapeXml(text: string): string {
  return [...text].map((character) => entities[character] ?? (isAllowed(character.codePointAt(0) ?? 0) ? character : '\ufffd')).join('')
}

/** XML 1.0, 2.2, Char: the whole of Unicode but for most control characters and halves of pairs. */
function isAllowed(codePoint: number): boolean {
  if (codePoint < 0x20) return codePoint === 0x9 || codePoint === 0xa || codePoint === 0xd
  return codePoint <= 0xd7ff || (codePoint >= 0xe000 && codePoint <= 0xfffd) || codePoint >= 0x10000
}
