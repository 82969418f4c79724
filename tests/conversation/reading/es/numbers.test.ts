import { describe, expect, it } from 'vitest'
import { readerOf } from '../reading-of.ts'

const { read } = readerOf('es')

/** The worse end counts: pain up, repetitions in reserve down. */
const pain: readonly (readonly [string, number | null])[] = [
  ['3', 3], ['cero', 0], ['tres', 3], ['diez', 10], ['un 4', 4], ['como un cuatro', 4], ['2-3', 3], ['2 a 3', 3], ['4 o 5', 5],
  ['4 u 8', 8], ['entre cinco y seis', 6], ['2,5', 3], ['2.5', 3], ['tres y medio', 4], ['3½', 4], ['3 y pico', 4], ['２', 2], ['6️⃣', 6], ['🔟', 10],
  ['4/10', 4], ['4 de 10', 4], ['4 sobre 10', 4], ['tres de diez', 3], ['del 1 al 10 un 4', 4], ['en una escala del 0 al 10, 5', 5],
  ['nada', 0], ['ninguno', 0], ['nada de dolor', 0], ['sin dolor', 0], ['no me dolió', 0], ['no duele', 0], ['ningún dolor', 0],
  ['para nada', 0], ['no me dolió nada', 0], ['uno, si acaso', 1], ['más o menos 3', 3], ['casi 5', 5], ['más de 6', 7], ['por lo menos 2', 2],
  ['como mucho 3', 3], ['3 no perdón 4', 4], ['perdón, quise decir 2', 2], ['me equivoqué, es 5', 5], ['3, digo 4', 4], ['no, 3', 3],
  ['cuello 2, brazo 4', 4], ['2 al principio y 5 al final', 5], ['hice las 8 repeticiones, dolor 2', 2], ['dolor 2, me quedaban 3', 2],
  ['20 segundos aguanté, dolor 1', 1], ['serie 2: dolor 3', 3], ['3 kilos, dolor 2', 2], ['me dolió un 3', 3], ['dolor tres y cansancio siete', 3],
  ['una molestia de 2', 2], ['dos', 2], ['TRES', 3], ['tress', 3], ['cuatroo', 4], ['siete!!', 7],
  ['11', null], ['-2', null], ['ok', null], ['no sé', null], ['un poco', null], ['mucho', null], ['un millón', null], ['', null],
  ['una', null], ['igual que antes', null], ['sin dolor hasta la última', null], ['hoy', null], ['a las 6', null], ['10 minutos', null],
]

const reserve: readonly (readonly [string, number | null])[] = [
  ['3', 3], ['dos', 2], ['1 o 2', 1], ['entre 2 y 3', 2], ['2,5', 2], ['5+', 5], ['un par', 2], ['una', 1], ['una más', 1], ['una nomás', 1],
  ['podía hacer 3 más', 3], ['me quedaban dos', 2], ['otras cuatro', 4], ['unas 6', 6], ['3 en reserva', 3], ['ninguna', 0], ['ninguna más', 0],
  ['ni una', 0], ['ni una más', 0], ['nada', 0], ['no podía más', 0], ['no me quedaba nada', 0], ['al límite', 0], ['al fallo', 0], ['cero', 0],
  ['izquierda 4 derecha 2', 2], ['4, no, la verdad: 2', 2], ['tres repeticiones más', 3], ['10', 10],
  ['un montón', null], ['ni idea', null], ['no sé', null], ['', null], ['100', null], ['sí', null],
]

describe('numbers in Spanish', () => {
  it.each(pain)('of pain, "%s" is %s', (text, value) => {
    expect(read(text, 'pain').value).toBe(value)
  })

  it.each(reserve)('of repetitions in reserve, "%s" is %s', (text, value) => {
    expect(read(text, 'reserve').value).toBe(value)
  })

  it('counts one more with the article, and tells no pain with it', () => {
    expect([read('una', 'reserve').value, read('una', 'pain').value]).toEqual([1, null])
  })

  it.each([
    ['2, firme, me quedaban 3', 'steady', 3, false], ['3, me temblaba un poco', 'shaky', null, false], ['2', null, null, false],
    ['4, no la terminé', null, null, true],
  ] as const)('"%s" tells more of the set than its pain', (text, control, left, isUnfinished) => {
    expect(read(text, 'pain').alsoTold).toEqual({ control, reserve: left, isUnfinished })
  })
})
