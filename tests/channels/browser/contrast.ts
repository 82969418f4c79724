import type { Page } from 'playwright-core'

export interface Contrast {
  readonly text: string
  readonly ratio: number
}

interface Shown {
  readonly text: string
  readonly ink: string
  readonly ground: string
}

/** The contrast of every visible text on the page with what is behind it; every ground of this page is opaque. */
export async function measureContrast(page: Page): Promise<Contrast[]> {
  const found: readonly Shown[] = await page.locator('body *').evaluateAll((elements) => {
    const { getComputedStyle } = elements[0]!.ownerDocument.defaultView!
    const groundOf = (element: (typeof elements)[number]): string => {
      const color = getComputedStyle(element).backgroundColor
      if (!/^rgba\(.*, 0\)$/.test(color) || element.parentElement === null) return color
      return groundOf(element.parentElement)
    }
    const textNode = 3
    const hasText = (element: (typeof elements)[number]) =>
      [...element.childNodes].some((node) => node.nodeType === textNode && node.textContent!.trim() !== '')
    return elements
      .filter((element) => element.checkVisibility() && element.closest('.unseen') === null && hasText(element))
      .map((element) => ({ text: element.textContent!, ink: getComputedStyle(element).color, ground: groundOf(element) }))
  })
  return found.map(({ text, ink, ground }) => ({ text, ratio: contrastRatio(readRgb(ink), readRgb(ground)) }))
}

type Rgb = readonly [number, number, number]

function readRgb(color: string): Rgb {
  const [red, green, blue] = (color.match(/[\d.]+/g) ?? []).map(Number)
  if (red === undefined || green === undefined || blue === undefined) throw new Error(`not a colour: ${color}`)
  return [red, green, blue]
}

/** WCAG 2.2, "contrast ratio" and "relative luminance" (www.w3.org/TR/WCAG22/#dfn-contrast-ratio). */
export function contrastRatio(a: Rgb, b: Rgb): number {
  const [darker, lighter] = [luminance(a), luminance(b)].sort((one, other) => one - other) as [number, number]
  return (lighter + 0.05) / (darker + 0.05)
}

function luminance(color: Rgb): number {
  const [red, green, blue] = color.map((value) => {
    const part = value / 255
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4
  }) as [number, number, number]
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue
}
