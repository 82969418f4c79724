/** The version of the shape of clinic, desk and chart. A field more, less or otherwise is a step in `migrations/`. */
export const documentFormat = 2
export type DocumentFormat = typeof documentFormat
