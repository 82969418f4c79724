// Contrast: WCAG 2.x, relative luminance and ratio [found]
// https://www.npmjs.com/package/@mdhnpm/color-contrast-ratio-calculator , https://gist.github.com/apisurfer/11127400

/** The older text prints 0.03928 for the threshold. */
export type Threshold = 0.04045 | 0.03928

export function linear(value: number, threshold: Threshold = 0.04045): number {
  const part = value / 255
  return part <= threshold ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4
}

export const leastRatio = { text: 4.5, largeText: 3, graphic: 3 } as const
