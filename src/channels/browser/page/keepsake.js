/**
 * A value that outlives a reload: for this tab (`sessionStorage`) or this browser (`localStorage`). Where the browser
 * keeps nothing, it lives as long as the page.
 *
 * @template T
 * @param {'tab' | 'browser'} reach
 * @param {string} key
 * @param {T} initial
 * @param {(value: unknown) => value is T} isSound
 */
export function createKeepsake(reach, key, initial, isSound) {
  let value = recall()

  function recall() {
    try {
      const kept = JSON.parse(storage(reach).getItem(key) ?? 'null')
      return isSound(kept) ? kept : initial
    } catch {
      return initial
    }
  }

  return {
    get: () => value,
    /** @param {T} next */
    set(next) {
      value = next
      try {
        storage(reach).setItem(key, JSON.stringify(next))
      } catch {
        // Full or forbidden: the page goes on with what it has in memory.
      }
    },
  }
}

/** @param {'tab' | 'browser'} reach */
function storage(reach) {
  return reach === 'tab' ? sessionStorage : localStorage
}
