type CamelCase<Text extends string> = Text extends `${infer Head}_${infer Tail}`
  ? `${Head}${Capitalize<CamelCase<Tail>>}`
  : Text

/** The same value with the keys of every map in camelCase; lists and plain values stay as they are. */
export type CamelCaseKeys<T> = T extends readonly unknown[]
  ? T
  : T extends object
    ? { [Key in keyof T as Key extends string ? CamelCase<Key> : Key]: CamelCaseKeys<T[Key]> }
    : T

export function camelCaseKeys<T>(value: T): CamelCaseKeys<T> {
  return convert(value) as CamelCaseKeys<T>
}

function convert(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [toCamelCase(key), convert(inner)]))
}

function toCamelCase(key: string): string {
  return key.replace(/_(.)/g, (_, letter: string) => letter.toUpperCase())
}
