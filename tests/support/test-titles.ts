import { readFileSync } from 'node:fs'
import ts from 'typescript'

/** The titles of a test file's tests as they are written, `%s` and all: of `it(…)`, `it.each(…)(…)` and their like. */
export function testTitlesIn(file: string): readonly string[] {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true)
  const titles: string[] = []
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) && isTest(node.expression)) {
      const [title] = node.arguments
      if (title && ts.isStringLiteralLike(title)) titles.push(title.text)
    }
    ts.forEachChild(node, visit)
  }
  visit(source)
  return titles
}

function isTest(callee: ts.Expression): boolean {
  if (ts.isIdentifier(callee)) return callee.text === 'it'
  return (ts.isCallExpression(callee) || ts.isPropertyAccessExpression(callee)) && isTest(callee.expression)
}
