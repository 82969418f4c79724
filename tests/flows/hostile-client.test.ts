import { describe } from 'vitest'
import { clientFlows, fuzzes } from './hostile/fuzzes.ts'

describe.each(clientFlows.filter((_, index) => index % 2 === 0))('$id', fuzzes)
