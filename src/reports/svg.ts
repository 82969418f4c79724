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

/** Names come from plans: characters that XML 1.0 (2.2, Char) does not allow even as references are replaced. */
function escapeXml(text: string): string {
  return text
    .replaceAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
    .replaceAll(/[&<>"']/g, (character) => entities[character] ?? character)
}
