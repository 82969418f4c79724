import { readdirSync, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import type { Problem } from './problem.ts'

/** One file of the content folder. `file` begins with the folder's own name, so that no path of a machine is shown. */
export interface ContentFile {
  /** Without folder and ending. */
  readonly name: string
  readonly file: string
  readonly text: string
}

export interface ContentFolder {
  /** The YAML files of a folder, by name. */
  list(folder: string): readonly ContentFile[]
  /** The names of the folders in a folder. */
  folders(folder: string): readonly string[]
  read(path: string): ContentFile | null
  /** Notes that a file or folder as a whole cannot be used. */
  refuse(path: string, message: string, mend: string): void
}

const ending = '.yaml'

/** Reads below `root`; what cannot be read is added to `problems`. */
export function openContentFolder(root: string, problems: Problem[]): ContentFolder {
  const shown = (path: string): string => `${basename(root)}/${path}`
  const refuse: ContentFolder['refuse'] = (path, message, mend) => {
    problems.push({ file: shown(path), line: 1, path: '', message, mend })
  }
  const entries = (folder: string) => {
    try {
      const found = readdirSync(join(root, folder), { withFileTypes: true })
      return found.filter((entry) => !entry.name.startsWith('.')).sort((a, b) => (a.name < b.name ? -1 : 1))
    } catch {
      refuse(folder, 'cannot be read as a folder', 'Create it, with at least one file in it.')
      return []
    }
  }
  const read: ContentFolder['read'] = (path) => {
    try {
      return { name: basename(path, ending), file: shown(path), text: readFileSync(join(root, path), 'utf8') }
    } catch {
      refuse(path, 'cannot be read', 'Create it, or make it readable.')
      return null
    }
  }
  return {
    read,
    refuse,
    folders: (folder) => entries(folder).filter((entry) => entry.isDirectory()).map((entry) => entry.name),
    list(folder) {
      const names = entries(folder).map((entry) => entry.name)
      for (const name of names.filter((name) => !name.endsWith(ending))) {
        refuse(`${folder}/${name}`, `does not end in ${ending}`, 'Rename it, or move it out of this folder.')
      }
      const files = names.filter((name) => name.endsWith(ending)).map((name) => read(`${folder}/${name}`))
      return files.filter((file) => file !== null)
    },
  }
}
