// What anybody may type, by kind of harm. All of it is invented.
import fc from 'fast-check'

/** Answers, commands, signs and slips, in both languages that clients may write in. */
export const sayings = [
  '0', '3', '7', '10', '11', '-1', '4,5', '2-3', 'no', 'yes', 'maybe', 'ok', 'done', 'ready', 'later', 'skip', 'none', 'nothing', '-',
  'stop', 'help', 'why', 'why exactly', 'not today', 'back', 'pause', 'change times', 'change my time zone', 'unsubscribe', 'something is wrong',
  'message my therapist', 'tell my therapist: the band is torn', 'sorry, I meant 7', 'sorry, I meant 0', 'sorry, I meant', 'as usual', 'worse',
  '/start', '/stop', '/help', '/stop@somebody', '/start token', '//', '/',
  'ayuda', 'para', 'hoy no', 'listo', 'por qué', 'más tarde', 'ninguno', 'perdón, quería decir 7', 'se me ha dormido el brazo', 'no me encuentro bien',
  'my arm went numb', 'I have a fever', 'is it normal that my hand tingles?', 'my left hand tingles and 4', '2, but a bit dizzy', 'no numbness, 3',
  'steady, 4 left, pain 2', 'shaky and my neck cracked', 'I cannot call', 'somebody called', 'I fell on my head', 'I feel ill',
  'enrol', 'clients', 'measure', 'score', 'invite', 'duty', '18:00', '22:30', '25:00', 'Europe/Dublin', 'Mars/Olympus', 'mon, wed', 'mon, wed, fri', '21:00-08:00',
  '112', '112, 118 N', '0 N', '-0 N', '9999 kg', '2 1 3 0 2 - 1 2 4 1', '7/10', 'better', '185/115', '120/80', 'light: 10 cm 8 N, 30 cm 20 N', '17', '41', '2026-01-12',
  '1, 2', '1 2 3 4 5 6 7 8 9', 'tingling, left, forearm and thumb, 4', 'look over my shoulder', '', ' ', '\n\n',
] as const

const numerals = ['٣', '۷', '७', '３', '௩', '৪', '๔', '四', '十', 'Ⅶ', '⑦', '½', '³', '₂', '3️⃣', '1e3', '0x10', '1_000', 'NaN', 'Infinity', '-0', '+5', '9'.repeat(400), '0.0000001', '٤/١٠']
const markup = [
  '<b>3</b>', '<script>alert(1)</script>', '<a href="https://chat.example/x">7</a>', '&lt;3&gt;', '&#51;', '**3**', '_no_', '[done](p:1:done)', '```\nstop\n```', '# 4',
  '{number}', '{', '}', "it's '{{'", '{x, plural, one {#} other {#}}', '{a, select, other {}}', '<x>', '%s %d %n', '$(id)', '${1}', '\\', '\\u0000', "'; --", '__proto__', 'constructor', 'toString', 'hasOwnProperty',
  'p:1:yes', 'm:chart:0:clear:now', 'd:enrol', 'null', 'undefined', 'true', '[]', '{"kind":"message"}', '=1+1', '@everybody', 'https://chat.example/token',
]
const emoji = ['🙂', '👍', '👍🏽', '👎🏿', '👩🏾‍⚕️', '👨‍👩‍👧‍👦', '🏳️‍🌈', '🇮🇪', '❤️', '😱😱', '🙂'.repeat(500), '3 👍', '🆗', '🔟', '✅', '❌', '🤕🤢']
const rightToLeft = ['שלום', 'توقف', 'ألم ٣', 'لا', 'نعم', '\u202e3', '\u202bstop\u202c', '\u2067yes\u2069', 'ע\u05b7צ\u05b7ר', '\u200f10\u200f', 'abc עברית 4 عربي']
const combining = ['\u0301', 'y\u0308e\u0301s\u0323', 'Z\u0351\u036b\u0343a\u0335l\u031bgo\u0321', '3\u20e3', '3\u0338', 'ﷺ', 'ﬁne', 'K', 'İstanbul', 'ẞ', '各', '\u{1d7d1}', '\u0e49'.repeat(40)]
const controls = ['\u0000', '3\u0000', '\u0007', '\u001b[31m3\u001b[0m', '\r\n3\r\n', '\t7\t', '\u007f', '\u0085', '\u2028', '\u2029', '\ufeff3', '\ufffd', '\ud800', '\udc00x', '\uffff', '\b\b\b', '3\v4', '\u00a0', '\u3000']
const zeroWidth = ['\u200b', '\u200d', '\u2060', '\u00ad', '\u034f', '\u180e', '\ufe0f'] as const

/** Marks that nobody sees, between all letters of something that is said. */
const hidden = fc.tuple(fc.constantFrom(...sayings), fc.constantFrom(...zeroWidth)).map(([text, mark]) => [...text].join(mark))
const joined = fc.tuple(fc.constantFrom(...sayings), fc.constantFrom(' ', ', ', '. ', '\n', ' and ', ' not ', '? '), fc.constantFrom(...sayings, ...emoji, ...numerals)).map((parts) => parts.join(''))
const inOtherCase = fc.constantFrom(...sayings).map((text) => text.toUpperCase())

/** Up to 5,000 characters. The reader is slowest where the most words are known to it. */
const long = fc.oneof(
  { weight: 4, arbitrary: fc.tuple(fc.string({ unit: 'binary', minLength: 20, maxLength: 60 }), fc.integer({ min: 10, max: 100 })).map(([text, times]) => text.repeat(times).slice(0, 5000)) },
  { weight: 3, arbitrary: fc.tuple(fc.constantFrom('a', ' ', '\n', '.', '🙂', '\u0301', '(', '{', "'", '-', '1'), fc.integer({ min: 500, max: 5000 })).map(([text, times]) => text.repeat(times).slice(0, 5000)) },
  { weight: 1, arbitrary: fc.tuple(fc.constantFrom(...sayings), fc.integer({ min: 20, max: 200 })).map(([text, times]) => `${text} `.repeat(times).slice(0, 5000)) },
)

export const anyText: fc.Arbitrary<string> = fc.oneof(
  { weight: 46, arbitrary: fc.constantFrom<string>(...sayings) },
  { weight: 10, arbitrary: joined },
  { weight: 4, arbitrary: inOtherCase },
  { weight: 4, arbitrary: hidden },
  { weight: 8, arbitrary: fc.string({ unit: 'binary', maxLength: 60 }) },
  { weight: 4, arbitrary: fc.string({ unit: 'grapheme', maxLength: 60 }) },
  { weight: 4, arbitrary: fc.array(fc.constantFrom(...rightToLeft, ...combining, ...zeroWidth), { minLength: 1, maxLength: 12 }).map((parts) => parts.join('')) },
  { weight: 18, arbitrary: fc.constantFrom(...numerals, ...markup, ...emoji, ...rightToLeft, ...combining, ...controls) },
  { weight: 2, arbitrary: long },
)

/** Words that lock at once, whoever writes them and whatever is open. */
export const emergencyWords = [
  'half my face is drooping',
  'HALF MY FACE IS DROOPING',
  'half my face is drooping 😱',
  '\u202bhalf my face is drooping',
  'stop. half my face is drooping',
  '3\nhalf my face is drooping',
  'half my face is drooping!!! what now?',
] as const
