/** A bar on a terminal; silent where nobody watches. */
export interface Progress {
  advance(): void
  end(): void
}

const width = 30

export function createProgress(total: number, terminal: ((text: string) => void) | null): Progress {
  let done = 0
  const draw = (): void => {
    const filled = total === 0 ? width : Math.round((done / total) * width)
    terminal?.(`\r[${'#'.repeat(filled)}${'.'.repeat(width - filled)}] ${done}/${total}`)
  }
  const isShown = total > 1
  return {
    advance() {
      done += 1
      if (isShown) draw()
    },
    end() {
      if (isShown) terminal?.('\n')
    },
  }
}
