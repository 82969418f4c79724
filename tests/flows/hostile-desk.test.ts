import { describe } from 'vitest'
import { deskFlows, fuzzes } from './hostile/fuzzes.ts'

describe.each(deskFlows)('$id', fuzzes)
