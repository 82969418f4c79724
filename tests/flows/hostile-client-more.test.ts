import { describe } from 'vitest'
import { clientFlows, fuzzes } from './hostile/fuzzes.ts'

describe.each(clientFlows.filter((_, index) => index % 2 === 1))('$id', fuzzes)
