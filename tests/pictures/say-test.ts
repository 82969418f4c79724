import type { Guard, Test } from '#flows/guards.ts'

/** XState hands a guard back as it was given. */
export function testOf(guard: unknown): Test {
  const { test } = guard as Partial<Guard>
  if (test === undefined) throw new Error('a guard that is not made in flows/guards.ts has no words')
  return test
}

/** A guard in words: answers in quotation marks, facts as they are called. */
export function sayTest(test: Test): string {
  switch (test.kind) {
    case 'answer':
      return `“${test.value === true ? 'yes' : test.value === false ? 'no' : test.value === '' ? 'nothing' : test.value}”`
    case 'number':
      return 'a number'
    case 'fact':
      return test.value === true ? inWords(test.fact) : `${inWords(test.fact)}: ${test.value}`
    case 'not':
      return `not: ${sayTest(test.of[0])}`
    case 'both':
      return test.of.map(sayTest).join(' and ')
    case 'either':
      return test.of.map(sayTest).join(' or ')
  }
}

/** `hasNextSet` is "has next set". */
function inWords(fact: string): string {
  return fact.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
}

/** Every test of which this one is made up. */
export function partsOf(test: Test): readonly Test[] {
  return 'of' in test ? test.of.flatMap(partsOf) : [test]
}
