import type { Store } from '#src/ports/store.ts'

type Late = 'apply' | 'findByContact' | 'settle'
/** Where the time goes: on the way to the store, or on the way of its answer, when what it did is done. */
type Way = 'there' | 'back'

/** A store at the end of a slow line: one of its calls takes until `letThrough` resolves. */
export function delayStore(
  store: Store,
  late: Late,
  way: Way,
  letThrough: (call: number) => Promise<void> | undefined,
): Store {
  let calls = 0
  const call = async (...given: readonly unknown[]): Promise<unknown> => {
    const through = letThrough((calls += 1))
    if (way === 'there') await through
    const answer: unknown = await Reflect.apply(store[late], store, given)
    await through
    return answer
  }
  return new Proxy(store, {
    get(target, key) {
      const member: unknown = key === late ? call : Reflect.get(target, key)
      return typeof member === 'function' ? member.bind(target) : member
    },
  })
}
