/** What came of a zone as somebody typed it; `zone` is its name in the IANA time zone database. */
export type ZoneReading =
  | { readonly kind: 'zone'; readonly zone: string }
  | { readonly kind: 'unusable'; readonly reason: 'empty' | 'unknown' | 'abbreviation' | 'fixed-offset' }

/**
 * Reads a zone as `Area/City` or as a city alone. An abbreviation or an offset is refused because it does not say when
 * the clocks change; `UTC`, written exactly so, is the one exception, for somebody whose wall clock shows it.
 */
export function readZone(text: string): ZoneReading {
  const typed = text.trim()
  if (typed === '') return { kind: 'unusable', reason: 'empty' }
  if (typed === 'UTC') return { kind: 'zone', zone: 'UTC' }
  if (isOffset(typed)) return { kind: 'unusable', reason: 'fixed-offset' }
  const zone = typed.includes('/') ? zoneNamed(typed) : zoneOfCity(typed)
  if (zone !== null) return { kind: 'zone', zone }
  return { kind: 'unusable', reason: isAbbreviation(typed) ? 'abbreviation' : 'unknown' }
}

/** `+01:00`, `-5`, `05:30`, and the `Etc` area, whose signs are the wrong way round besides. */
function isOffset(typed: string): boolean {
  return /^[+\-−]?\s*\d{1,2}(:?\d{2})?$/.test(typed) || /^etc\s*\//i.test(typed)
}

const abbreviations = new Set(
  ('ut utc gmt z zulu uct wet west cet cest eet eest msk bst ist mez mesz est edt cst cdt mst mdt pst pdt akst akdt hst ' +
    'ast adt nst ndt brt art clt cat eat wat sast pkt npt ict sgt hkt jst kst awst acst acdt aest aedt nzst nzdt').split(' '),
)

/** Letters for a zone, alone, with an offset (`GMT+1`) or in pairs (`EST5EDT`). */
function isAbbreviation(typed: string): boolean {
  const letters = /^([a-z]{1,5})\s*([+\-−]?\s*\d{1,2}(:?\d{2})?)?\s*([a-z]{1,5})?$/i.exec(typed)?.[1] ?? ''
  return abbreviations.has(letters.toLowerCase())
}

/**
 * Names that the runtime lists under an older spelling, though it understands the present one (IANA time zone database,
 * file `backward`). A client sees the present one.
 */
const presentNames: Readonly<Record<string, string>> = {
  'Africa/Asmera': 'Africa/Asmara',
  'America/Buenos_Aires': 'America/Argentina/Buenos_Aires',
  'America/Catamarca': 'America/Argentina/Catamarca',
  'America/Cordoba': 'America/Argentina/Cordoba',
  'America/Jujuy': 'America/Argentina/Jujuy',
  'America/Mendoza': 'America/Argentina/Mendoza',
  'America/Coral_Harbour': 'America/Atikokan',
  'America/Godthab': 'America/Nuuk',
  'America/Indianapolis': 'America/Indiana/Indianapolis',
  'America/Louisville': 'America/Kentucky/Louisville',
  'Asia/Calcutta': 'Asia/Kolkata',
  'Asia/Katmandu': 'Asia/Kathmandu',
  'Asia/Rangoon': 'Asia/Yangon',
  'Asia/Saigon': 'Asia/Ho_Chi_Minh',
  'Atlantic/Faeroe': 'Atlantic/Faroe',
  'Europe/Kiev': 'Europe/Kyiv',
  'Pacific/Enderbury': 'Pacific/Kanton',
  'Pacific/Ponape': 'Pacific/Pohnpei',
  'Pacific/Truk': 'Pacific/Chuuk',
}

function presentName(name: string): string {
  return presentNames[name] ?? name
}

/** What is left of a name once case, accents, blanks and hyphens are forgiven. */
function keyOf(name: string): string {
  return name.normalize('NFD').replace(/[\u0300-\u036f\s_-]/g, '').toLowerCase()
}

const listed = [...Intl.supportedValuesOf('timeZone'), ...Object.keys(presentNames), ...Object.values(presentNames)]
const namesByKey = new Map(listed.map((name) => [keyOf(name), presentName(name)]))
const namesByCity = groupByCity(listed)

function groupByCity(names: readonly string[]): ReadonlyMap<string, ReadonlySet<string>> {
  const groups = new Map<string, Set<string>>()
  for (const name of names) {
    const [, city, province] = name.split('/')
    // A place of one province has namesakes elsewhere (San Juan, Petersburg): it is taken only when written in full.
    if (city === undefined || province !== undefined) continue
    groups.set(keyOf(city), (groups.get(keyOf(city)) ?? new Set()).add(presentName(name)))
  }
  return groups
}

function zoneOfCity(typed: string): string | null {
  const [only, second] = namesByCity.get(keyOf(typed)) ?? []
  return only !== undefined && second === undefined ? only : null
}

function zoneNamed(typed: string): string | null {
  return namesByKey.get(keyOf(typed)) ?? linkedZone(typed.replace(/\s*\/\s*/g, '/').replace(/\s+/g, '_'))
}

/** Older names that the database keeps as links, e.g. `US/Eastern`, are read as the zone they point to. */
function linkedZone(name: string): string | null {
  try {
    const { timeZone } = new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions()
    return namesByKey.get(keyOf(timeZone)) ?? null
  } catch {
    return null
  }
}
