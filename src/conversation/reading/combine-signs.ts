import { signLevels, type SignName } from './signs.ts'

/**
 * Signs that together are another one (design section 4, triage): dizziness with any other sign is no longer the kind that
 * settles; fever with a stiff neck; a blow with tingling or severe pain, as in the Canadian C-spine rule; two signs of
 * general illness.
 */
export function combineSigns(signs: ReadonlySet<SignName>, symptoms: ReadonlySet<string>): ReadonlySet<SignName> {
  const combined = new Set(signs)
  const replace = (old: readonly SignName[], by: SignName): void => {
    for (const name of old) combined.delete(name)
    combined.add(by)
  }
  if (symptoms.has('fever') && symptoms.has('stiff-neck')) replace(['fever'], 'fever-stiff-neck')
  // Fever with severe neck pain is a matter of the same day (Finucane 2020: judge signs together).
  if (combined.has('fever') && symptoms.has('severe-pain')) replace(['fever'], 'two-illness-signs')
  if (combined.has('other-trauma') && (symptoms.has('numb') || symptoms.has('severe-pain'))) {
    replace(['other-trauma'], 'dangerous-trauma')
  }
  if (combined.has('dangerous-trauma')) combined.delete('other-trauma')
  const illness = [...combined].filter((name) => signLevels[name] === 'routine')
  // A past cancer or feeling rough is no sign alone, and with a sign of illness makes the second (Finucane 2020).
  const isPoorlyToo = symptoms.has('poorly') && illness.some((name) => name !== 'feeling-ill')
  if (illness.length > 1 || isPoorlyToo) replace(illness, 'two-illness-signs')
  const isDizzy = symptoms.has('dizzy') || symptoms.has('spinning')
  const hasOther = [...combined].some((name) => name !== 'light-headed' && name !== 'spinning-lasting')
  if (isDizzy && (hasOther || combined.has('spinning-lasting'))) replace(['light-headed'], 'spinning-lasting')
  return combined
}
