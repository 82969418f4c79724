import { describe, expect, it } from 'vitest'
import type { Control } from '#src/domain/set-report.ts'
import { readerOf } from '../reading-of.ts'

const { read } = readerOf('es')

/** Asked is whether chin, shoulders or body moved to help. */
const rows: readonly (readonly [string, Control | null])[] = [
  ['no', 'steady'], ['no, nada', 'steady'], ['para nada', 'steady'], ['firme', 'steady'], ['estable', 'steady'], ['bien controlado', 'steady'],
  ['todo quieto', 'steady'], ['como una roca', 'steady'], ['quieto como estatua', 'steady'], ['perfecto', 'steady'], ['genial', 'steady'],
  ['muy bien', 'steady'], ['sin trampa', 'steady'], ['no hice trampa', 'steady'], ['no me moví', 'steady'], ['no se movió nada', 'steady'],
  ['los hombros quietos', 'steady'], ['solo se movió la cabeza', 'steady'], ['control total', 'steady'], ['creo que no', 'steady'],
  ['no temblé', 'steady'], ['lo clavé', 'steady'], ['👌', 'steady'], ['sin problema', 'steady'],
  ['un poco', 'shaky'], ['un poquito', 'shaky'], ['algo', 'shaky'], ['temblé', 'shaky'], ['me temblaba', 'shaky'], ['tembloroso', 'shaky'],
  ['más o menos', 'shaky'], ['sí, un poco', 'shaky'], ['un poco sí', 'shaky'], ['subí un poco los hombros', 'shaky'], ['no muy firme', 'shaky'],
  ['casi firme', 'shaky'], ['firme al principio, luego temblaba', 'shaky'], ['a veces', 'shaky'], ['tambaleante', null], ['regular', 'shaky'],
  ['hice un poco de trampa', 'shaky'], ['firme menos la última', 'shaky'],
  ['sí', 'lost'], ['sí, mucho', 'lost'], ['perdí el control', 'lost'], ['subí los hombros', 'lost'], ['hice trampa', 'lost'],
  ['me ayudé con los hombros', 'lost'], ['se me subieron los hombros', 'lost'], ['fatal', 'lost'], ['un desastre', 'lost'], ['muy mal', 'lost'],
  ['no pude controlarlo', 'lost'], ['usé el tronco', 'lost'], ['los hombros hicieron todo el trabajo', 'lost'], ['sin control', 'lost'],
  ['me incliné hacia atrás', 'lost'], ['el cuerpo se balanceó', 'lost'], ['sí, la barbilla se adelantó', 'lost'], ['no firme', 'lost'],
  ['ok', null], ['quizás', null], ['3', null], ['', null], ['cansado', null], ['sí, firme', null], ['se me duerme la mano', null],
]

describe('control in Spanish words', () => {
  it.each(rows)('"%s" is %s', (text, value) => {
    expect(read(text, 'control').value).toBe(value)
  })
})
