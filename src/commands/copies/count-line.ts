/** A line of progress where nobody knows yet how much there is; silent where nobody watches. */
export interface CountLine {
  /** One more of this work; another work begins anew. */
  count(work: string): void
  end(): void
}

export function createCountLine(terminal: ((text: string) => void) | null): CountLine {
  let [work, done] = ['', 0]
  return {
    count(next) {
      done = next === work ? done + 1 : 1
      if (work !== '' && next !== work) terminal?.('\n')
      work = next
      terminal?.(`\r${work}: ${done}`)
    },
    end() {
      if (work !== '') terminal?.('\n')
    },
  }
}
