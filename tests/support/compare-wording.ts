import { IntlMessageFormat } from 'intl-messageformat'

/** What two languages have to share in one text. */
export interface TextShape {
  /** The values it is filled in with, each once. */
  readonly values: readonly string[]
  /** Values that choose between words, with the choices they name; counting words (one, few, many) are a language's own. */
  readonly choices: readonly string[]
  /** Every number in digits, in order of size; a decimal comma counts as a point. */
  readonly numbers: readonly string[]
}

/** The parts of a message's tree that are looked at; the library numbers the kinds of its nodes and names none of them. */
interface Node {
  readonly value?: string
  readonly options?: Readonly<Record<string, { readonly value: readonly Node[] }>>
  readonly type: number
}

const literal = 0
const ownOfALanguage = ['zero', 'one', 'two', 'few', 'many']

export function shapeOf(text: string, language: string): TextShape {
  const nodes = allNodes(new IntlMessageFormat(text, language, undefined, { ignoreTag: true }).getAst() as readonly Node[])
  const named = nodes.filter((node) => node.type !== literal && node.value !== undefined)
  return {
    values: distinct(named.map(({ value = '' }) => value)),
    choices: distinct(named.flatMap(choicesOf)),
    numbers: nodes
      .filter((node) => node.type === literal)
      .flatMap(({ value = '' }) => value.match(/\d+(?:[.,]\d+)*/g) ?? [])
      .map((number) => number.replace(',', '.'))
      .toSorted(),
  }
}

function choicesOf({ value = '', options = {} }: Node): readonly string[] {
  const names = Object.keys(options).filter((name) => !ownOfALanguage.includes(name))
  return names.map((name) => `${value}: ${name}`)
}

function allNodes(nodes: readonly Node[]): readonly Node[] {
  return nodes.flatMap((node) => [node, ...Object.values(node.options ?? {}).flatMap(({ value }) => allNodes(value))])
}

function distinct(names: readonly string[]): readonly string[] {
  return [...new Set(names)].toSorted()
}

/**
 * Where a translation says less, more or something else than the text it stands for. A value that the original inserts may
 * be chosen by in the translation: `{side}` becomes `{side, select, left {izquierdo} other {derecho}}`.
 */
export function disagreements(original: TextShape, translation: TextShape): readonly string[] {
  const choosing = new Set(original.choices.map((choice) => choice.split(':')[0]))
  const compared = translation.choices.filter((choice) => choosing.has(choice.split(':')[0]))
  return [
    ...differences('value', original.values, translation.values),
    ...differences('choice', original.choices, compared),
    ...differences('number', original.numbers, translation.numbers),
  ]
}

function differences(what: string, original: readonly string[], translation: readonly string[]): readonly string[] {
  const count = (list: readonly string[], item: string): number => list.filter((one) => one === item).length
  const items = [...new Set([...original, ...translation])]
  return items.flatMap((item) => {
    const by = count(translation, item) - count(original, item)
    return by === 0 ? [] : [`${what} ${item} is ${by < 0 ? 'lost' : 'added'}`]
  })
}
