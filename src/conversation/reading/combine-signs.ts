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
  // Whoever is being hurt has had the blow that goes with it.
  if (combined.has('dangerous-trauma') || combined.has('being-hurt')) combined.delete('other-trauma')
  // Half of the body takes its arm in, and numbness of which the place is not told again.
  if (combined.has('face-or-half-body-numbness')) combined.delete('arm-numbness')
  const illness = [...combined].filter((name) => signLevels[name] === 'routine')
  // A past cancer or feeling rough is no sign alone, and with a sign of illness makes the second (Finucane 2020).
  const isPoorlyToo = symptoms.has('poorly') && illness.some((name) => name !== 'feeling-ill')
  if (illness.length > 1 || isPoorlyToo) replace(illness, 'two-illness-signs')
  // The worst headache says all that a new or a severe pain does, and a dangerous blow all that a severe pain does.
  // A headache beside fever and a stiff neck belongs to them.
  if (combined.has('sudden-worst-headache') || combined.has('fever-stiff-neck')) combined.delete('pain-unlike-any')
  if (combined.has('sudden-worst-headache') || combined.has('dangerous-trauma')) combined.delete('severe-pain-now')
  const isDizzy = symptoms.has('dizzy') || symptoms.has('spinning')
  // Being sick beside an emergency, or from pain, is no dizziness of its own.
  const isSickFromIt = [...combined].some((name) => signLevels[name] === 'emergency' || name === 'severe-pain-now')
  if (symptoms.has('sick') && !isDizzy && isSickFromIt) combined.delete('light-headed')
  const hasOther = [...combined].some((name) => name !== 'light-headed' && name !== 'spinning-lasting')
  if (isDizzy && (hasOther || combined.has('spinning-lasting'))) replace(['light-headed'], 'spinning-lasting')
  return combined
}
