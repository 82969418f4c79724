// Whoever writes to the bot chooses the text. No regular expression that reads it may take more than linear work.
import { readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import type typescript from 'typescript'
import { describe, expect, it } from 'vitest'
import { parseExpression, searchSteps, type Part, type Ways } from '#tests/support/regular-expression.ts'

// Loaded past the test runner, which would look in vain for its source map.
const ts = createRequire(import.meta.url)('typescript') as typeof typescript
const folder = 'src/conversation'

interface Written {
  readonly where: string
  readonly ways: Ways
}

function literalsIn(file: string): readonly Written[] {
  const source = ts.createSourceFile(file, readFileSync(join(folder, file), 'utf8'), ts.ScriptTarget.Latest, true)
  const found: Written[] = []
  const visit = (node: typescript.Node): void => {
    if (ts.isRegularExpressionLiteral(node)) {
      const end = node.text.lastIndexOf('/')
      found.push({ where: `${file} ${node.text}`, ways: parseExpression(node.text.slice(1, end), node.text.slice(end + 1)) })
    }
    ts.forEachChild(node, visit)
  }
  visit(source)
  return found
}

const written = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.ts')).flatMap(literalsIn)
const parse = (source: string, flags = 'u'): Ways => parseExpression(source, flags)

/** Optional counts as quantified: the stricter reading is the one that can be seen at a glance. */
function hasNested(ways: Ways, isInside = false): boolean {
  return ways.flat().some((part) => isNested(part, isInside))
}

function isNested(part: Part, isInside: boolean): boolean {
  if (part.kind === 'look' || part.kind === 'group') return hasNested(part.ways, isInside)
  if (part.kind !== 'repeat') return false
  const isGroup = part.of.kind === 'group'
  return (isInside && isGroup) || isNested(part.of, isInside || isGroup)
}

const alphabet = [...'aAnmxhz09.,;:-+/*@#<>()[]{}=\'"\\ \n\t²½éß\u0301\u200B가٣–—’🙂'].concat('ﬁ')

/** What its parts fit, a letter or two for each, so that every run and every turn of them is tried. */
function lettersOf(ways: Ways): readonly string[] {
  return ways.flat().flatMap((part): readonly string[] => {
    if (part.kind === 'one') return alphabet.filter((letter) => part.fits.test(letter)).slice(0, 2)
    if (part.kind === 'repeat') return lettersOf([[part.of]])
    return part.kind === 'group' || part.kind === 'look' ? lettersOf(part.ways) : []
  })
}

const [short, long] = [60, 120]
/** Linear work on the short text is a tenth of it at most. */
const mostSteps = 60 * 200

/** Runs, runs after another letter and letters in turn, each with an end that fits nothing. */
function growth(ways: Ways): number {
  const letters = [...new Set(lettersOf(ways))].slice(0, 10)
  const hostile = letters.flatMap((a) => letters.flatMap((b): readonly ((times: number) => string)[] => [
    (times) => `${a}${b.repeat(times)}\u0001`,
    (times) => `${(a + b).repeat(times / 2)}\u0001`,
    (times) => `${a}${b.repeat(times / 2)}${a.repeat(times / 2)}\u0001`,
  ]))
  return Math.max(0, ...hostile.map((text) => {
    const few = searchSteps(ways, text(short), mostSteps)
    return few === mostSteps ? Infinity : searchSteps(ways, text(long), 4 * few) / few
  }))
}

// Twice the text is twice the work, and a little for what is looked at once; where work is square it is four times.
const mostGrowth = 2.4

describe('the regular expressions that read what people write', () => {
  it('are found, and all of them can be read', () => {
    expect(written.length).toBeGreaterThan(40)
  })

  it('hold no quantified group inside a quantified group', () => {
    expect(written.filter(({ ways }) => hasNested(ways)).map(({ where }) => where)).toEqual([])
  })

  it('take no more than twice the work for twice the text', () => {
    expect(written.filter(({ ways }) => growth(ways) > mostGrowth).map(({ where, ways }) => `${where} ${growth(ways)}`)).toEqual([])
  })
})

describe('the two checks', () => {
  it.each(['(?:a(?:b)?)*', '((?:a)*b)+', '(?:x(?:y(z)?))?'])('notice the nested groups of %s', (source) => {
    expect(hasNested(parse(source))).toBe(true)
  })

  it.each(['(a)+(b)+', '(?:[ab]+c)*', '(?:a(b))?'])('find none nested in %s', (source) => {
    expect(hasNested(parse(source))).toBe(false)
  })

  it.each([String.raw`\s*-`, String.raw`^\s*\s*x`, String.raw`\d+[.,]?\d+x`, '^(a+)+$', '^(?:a|a?)*c$', String.raw`(\p{L})*,`])(
    'notice that %s takes more than linear work', (source) => {
      expect(growth(parse(source))).toBeGreaterThan(mostGrowth)
    },
  )

  it.each([String.raw`^\s*x`, String.raw`\s+`, '[ab]+', String.raw`(\p{L})\1{2,}`])('find %s linear', (source) => {
    expect(growth(parse(source))).toBeLessThanOrEqual(mostGrowth)
  })
})
