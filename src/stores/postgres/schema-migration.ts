/** A step of the schema. Released steps are never changed. */
export interface SchemaMigration {
  readonly number: number
  readonly name: string
  readonly sql: string
}
