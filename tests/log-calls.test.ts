// Every line that is logged, and every message of an error, as the source writes them: what may stand there is listed here.
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import ts from 'typescript'
import { describe, expect, it } from 'vitest'

const files = readdirSync('src', { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => join('src', name))

/** Counts, codes, names of ours and ids of documents; a field more is to be judged here before it is logged anywhere. */
const loggable = ['channel', 'code', 'count', 'document', 'error', 'hours', 'method', 'name', 'port', 'tries', 'url', 'updateId']
/** The channel's own note, which is turned into a line without the update's number where the channel is made. */
const noteFields = ['event', 'method', 'code', 'updateId']

/** What never stands in an error's message, whatever it is called from. */
const unspeakable = ['text', 'words', 'answer', 'contact', 'address', 'token', 'secret', 'sign', 'message', 'chatId', 'from', 'to', 'said', 'claim']

/**
 * Judged by a person: what the schema of a signature says of the signer's own options, read by nobody but whoever typed them;
 * and a message of the store's own, with the folder put before it.
 */
const judged = ['src/commands/sign.ts message', 'src/stores/lowdb/side-file.ts message']

interface Found {
  readonly place: string
  readonly names: readonly string[]
}

function visitAll(visit: (node: ts.Node, place: string) => void): void {
  for (const file of files) {
    const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true)
    const walk = (node: ts.Node): void => {
      visit(node, `${file}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1}`)
      ts.forEachChild(node, walk)
    }
    walk(source)
  }
}

/** The names of an object literal; what is spread into it has to be one of the two functions that give codes only. */
function namesIn(literal: ts.ObjectLiteralExpression): readonly string[] {
  return literal.properties.map((property) => {
    if (ts.isSpreadAssignment(property)) return `...${property.expression.getText()}`
    return property.name?.getText() ?? '?'
  })
}

const safeSpread = /^\.\.\.(described|describeError\(error\)|describeFailure\(error\))$/

function logCalls(): readonly Found[] {
  const found: Found[] = []
  visitAll((node, place) => {
    if (!ts.isCallExpression(node)) return
    const callee = node.expression.getText()
    const fields = /(^|\.)log\.(info|warn|error)$/.test(callee) ? node.arguments[1] : callee === 'log' ? node.arguments[0] : undefined
    if (fields === undefined) return
    if (ts.isObjectLiteralExpression(fields)) found.push({ place, names: namesIn(fields) })
    else found.push({ place, names: [`(${fields.getText()})`] })
  })
  return found
}

/** What an expression is made of; words that stand in it as text are ours. */
function identifiersIn(node: ts.Node): readonly string[] {
  const names: string[] = ts.isIdentifier(node) ? [node.text] : []
  ts.forEachChild(node, (child) => void names.push(...identifiersIn(child)))
  return names
}

function errorMessages(): readonly Found[] {
  const found: Found[] = []
  visitAll((node, place) => {
    if (!ts.isNewExpression(node) || !/Error$/.test(node.expression.getText())) return
    const names: string[] = []
    const collect = (part: ts.Node): void => {
      if (ts.isTemplateSpan(part)) names.push(...identifiersIn(part.expression))
      ts.forEachChild(part, collect)
    }
    node.arguments?.forEach(collect)
    found.push({ place, names })
  })
  return found
}

describe('what is logged', () => {
  const calls = logCalls()

  it('is found by this test', () => {
    expect(calls.length).toBeGreaterThan(25)
  })

  it('has fields from the list only, and none that may hold a text, an address, a token or a network’s event id', () => {
    const allowed = new Set([...loggable, ...noteFields])
    // The pass-through of the channel's note, and a function of `describeError`'s kind, are named here one by one.
    const isAllowed = (name: string): boolean => allowed.has(name) || safeSpread.test(name) || name === '(describeError(error))' || name === '(fields)'
    expect(calls.flatMap(({ place, names }) => names.filter((name) => !isAllowed(name)).map((name) => `${place} ${name}`))).toEqual([])
  })

  it('carries the number of an update nowhere but from the channel to where its log is made', () => {
    const places = calls.filter(({ names }) => names.includes('updateId')).map(({ place }) => place.replace(/:\d+$/, ''))
    expect([...new Set(places)]).toEqual(['src/channels/telegram/update-intake.ts'])
  })
})

describe('an error’s message', () => {
  const messages = errorMessages()

  it('is found by this test', () => {
    expect(messages.length).toBeGreaterThan(60)
  })

  it('is made of no text, answer, address, token or sign', () => {
    const bad = messages.flatMap(({ place, names }) => names.filter((name) => unspeakable.includes(name)).map((name) => `${place} ${name}`))
    expect(bad.map((one) => one.replace(/:\d+/, '')).filter((one) => !judged.includes(one))).toEqual([])
  })
})
