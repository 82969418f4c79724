// Once a run, before any test.
import { buildProduct } from './built-product.ts'

export default async function setUp(): Promise<() => Promise<void>> {
  const { remove } = await buildProduct()
  return remove
}
