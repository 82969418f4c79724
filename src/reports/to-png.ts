import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { Resvg } from '@resvg/resvg-js'

/** Text vanishes in silence where a font is missing, so that ours come along and none of the machine's is used. */
const fonts = join(dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')), 'ttf')
const fontFiles = ['DejaVuSans.ttf', 'DejaVuSans-Bold.ttf'].map((name) => join(fonts, name))

/** Sharp enough to print across a page. */
const pixelsAPoint = 2

export function toPng(svg: string): Uint8Array {
  const font = { fontFiles, loadSystemFonts: false, defaultFontFamily: 'DejaVu Sans' }
  return new Resvg(svg, { font, fitTo: { mode: 'zoom', value: pixelsAPoint } }).render().asPng()
}
