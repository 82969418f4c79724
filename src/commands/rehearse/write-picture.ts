import { writeFileSync } from 'node:fs'
import { extname } from 'node:path'
import { drawPlanPicture } from '#src/reports/draw-plan-picture.ts'
import type { PlanPicture } from '#src/reports/plan-picture.ts'
import { toPng } from '#src/reports/to-png.ts'
import { InputError } from '../input-error.ts'

const writers: Readonly<Record<string, (svg: string) => string | Uint8Array>> = { '.svg': (svg) => svg, '.png': toPng }

/** Before anything is played, so that a slip of the pen does not cost a rehearsal. */
export function checkPicturePath(path: string): void {
  if (writers[extname(path)] === undefined) throw new InputError(`--plot ${path}: the file has to end in .svg or .png.`)
}

export function writePicture(path: string, picture: PlanPicture): void {
  const write = writers[extname(path)]
  if (write === undefined) return checkPicturePath(path)
  try {
    writeFileSync(path, write(drawPlanPicture(picture)))
  } catch (error) {
    throw new InputError(`--plot ${path}: it cannot be written (${(error as NodeJS.ErrnoException).code ?? 'unknown'}). Name a folder that is there.`, { cause: error })
  }
}
