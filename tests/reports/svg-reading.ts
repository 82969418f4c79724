// Reads back the pictures that we write: strict about what our own renderer gives, and no further.
import { boxOf, type Anchor, type Box } from '#src/reports/text-box.ts'

export interface ReadElement {
  readonly name: string
  readonly attributes: Readonly<Record<string, string>>
  readonly children: readonly (ReadElement | string)[]
}

const entities: Readonly<Record<string, string>> = { '&amp;': '&', '&lt;': '<', '&gt;': '>', '&quot;': '"', '&#39;': "'" }

function unescape(text: string): string {
  if (/[<>]|&(?!(?:amp|lt|gt|quot|#39);)/.test(text)) throw new Error(`not escaped: ${text}`)
  return text.replaceAll(/&[a-z#0-9]+;/g, (entity) => entities[entity] ?? entity)
}

/** Throws where an element is not closed, an attribute stands twice or a text is not escaped. */
export function readSvg(text: string): ReadElement {
  const root = { name: '', attributes: {}, children: [] as (ReadElement | string)[] }
  const open = [root]
  let at = 0
  for (const token of text.matchAll(/<(\/?)([a-z]+)((?: [\w:-]+="[^"]*")*)(\/?)>/gi)) {
    const [whole, closing, name = '', attributes = '', isEmpty] = token
    const between = text.slice(at, token.index)
    at = token.index + whole.length
    if (between !== '') open.at(-1)?.children.push(unescape(between))
    if (closing === '/') {
      if (open.pop()?.name !== name) throw new Error(`</${name}> closes something else`)
      continue
    }
    const element = { name, attributes: readAttributes(attributes), children: [] }
    open.at(-1)?.children.push(element)
    if (isEmpty !== '/') open.push(element)
  }
  const [svg] = root.children
  if (open.length !== 1 || at !== text.length || root.children.length !== 1 || typeof svg !== 'object') throw new Error('not one whole element')
  return svg
}

function readAttributes(text: string): Readonly<Record<string, string>> {
  const pairs = [...text.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, name = '', value = '']) => [name, unescape(value)] as const)
  if (new Set(pairs.map(([name]) => name)).size !== pairs.length) throw new Error(`an attribute twice: ${text}`)
  return Object.fromEntries(pairs)
}

export interface Found {
  readonly element: ReadElement
  /** Down from the top of the picture. */
  readonly top: number
}

/** Every element of that kind, wherever it stands. */
export function findAll(element: ReadElement, isWanted: (element: ReadElement) => boolean, top = 0): readonly Found[] {
  const moved = Number(/^translate\(\S+ (\S+)\)$/.exec(element.attributes.transform ?? '')?.[1] ?? 0)
  const inner = element.children.flatMap((child) => (typeof child === 'string' ? [] : findAll(child, isWanted, top + moved)))
  return isWanted(element) ? [{ element, top }, ...inner] : inner
}

export function textOf({ children }: ReadElement): string {
  return children.map((child) => (typeof child === 'string' ? child : textOf(child))).join('')
}

/** Bold letters are wider by about a tenth. */
const bold = 1.12

export function textBoxes(svg: ReadElement): readonly { readonly text: string; readonly box: Box }[] {
  return findAll(svg, ({ name }) => name === 'text').map(({ element, top }) => {
    const { attributes } = element
    const text = textOf(element)
    const size = Number(attributes['font-size'])
    const box = boxOf({ text, x: Number(attributes.x), y: Number(attributes.y) + top, size, anchor: attributes['text-anchor'] as Anchor })
    return { text, box: attributes['font-weight'] === 'bold' ? { ...box, width: box.width * bold } : box }
  })
}
