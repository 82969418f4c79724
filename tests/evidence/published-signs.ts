import type { AlertLevel } from '#src/domain/triage.ts'

/** How a sign has to be read: it alarms at once, or the bot at least pauses and asks. */
export type Least = 'alarm' | 'ask'

/** One single item of a published list, twice in lay words in each language, and the least that it has to count as. */
export interface PublishedSign {
  readonly item: string
  readonly level: AlertLevel
  readonly least: Least
  readonly words: Readonly<Record<'en' | 'es', readonly [string, string]>>
}

type Phrases = readonly [string, string]

const reading =
  (level: AlertLevel, least: Least) =>
  (item: string, en: Phrases, es: Phrases): PublishedSign => ({ item, level, least, words: { en, es } })

export const emergency = reading('emergency', 'alarm')
export const urgent = reading('urgent', 'alarm')
export const routine = reading('routine', 'alarm')
export const askUrgent = reading('urgent', 'ask')

/**
 * Rushton 2020 (IFOMPT), JOSPT 53(1):7-22: the early and late signs of the neck's arteries [memory:medium]; its risk factors are
 * no signs. The levels are those of the tiers [convention]; what no tier names has to be asked about.
 */
export const arteries: readonly PublishedSign[] = [
  urgent(
    'head pain unlike any other',
    ['My head hurts like it never has before', 'I have a headache that is nothing like my usual ones'],
    ['La cabeza me duele como nunca antes', 'Tengo un dolor de cabeza que no se parece a los de siempre'],
  ),
  urgent(
    'neck pain unlike any other',
    ['This is a neck pain I have never had before', 'A new pain in my neck, totally different from the old one'],
    ['Es un dolor de cuello que nunca había tenido', 'Un dolor nuevo en el cuello, totalmente distinto al de siempre'],
  ),
  emergency('Horner: droopy lid', ['One of my eyelids has started to hang', 'My left eyelid is drooping since this morning'],
    ['Un párpado se me está cayendo', 'Tengo el párpado izquierdo caído desde esta mañana']),
  emergency('Horner: small pupil', ['One pupil is much smaller than the other today', 'My pupils are suddenly different sizes'],
    ['Hoy tengo una pupila mucho más chica que la otra', 'De repente tengo las pupilas de distinto tamaño']),
  urgent(
    'pulsing noise in the ear',
    ['I hear my pulse whooshing in one ear since yesterday', 'There is a new beating noise in my ear'],
    ['Desde ayer oigo los latidos en un oído', 'Tengo un zumbido nuevo en el oído que late con el pulso'],
  ),
  emergency('cranial nerve: face', ['I cannot close my right eye and the mouth hangs', 'I cannot smile on one side any more'],
    ['No puedo cerrar el ojo derecho y la boca me cuelga', 'Ya no puedo sonreír de un lado']),
  emergency(
    'cranial nerve: eye movement',
    ['Things look double when I look to the side', 'One of my eyes does not move along and I see two of you'],
    ['Veo las cosas dobles cuando miro de lado', 'Un ojo no se me mueve con el otro y veo doble'],
  ),
  emergency('limb weakness: arm', ['My arm suddenly has no strength', 'I suddenly cannot hold my arm up'],
    ['De repente no tengo fuerza en el brazo', 'De pronto no puedo sostener el brazo en alto']),
  emergency('limb weakness: leg', ['One leg has suddenly gone weak', 'My leg gave way and it will not carry me'],
    ['De repente una pierna se me quedó sin fuerza', 'La pierna me falló y no me sostiene']),
  emergency('face droop', ['One corner of my mouth is hanging', 'The left half of my face has dropped'],
    ['Me cuelga una comisura de la boca', 'Se me cayó la mitad izquierda de la cara']),
  emergency('visual loss', ['I went blind in one eye', 'Half of what I see has gone dark'],
    ['Me quedé ciego de un ojo', 'La mitad de lo que veo se puso negro']),
  emergency('confusion', ['I am confused and do not know what day it is', 'All of a sudden I do not know where I am'],
    ['Estoy confundido y no sé qué día es', 'De repente no sé dónde estoy']),
]

/**
 * The five Ds, the A and the three Ns [found] https://unanswered.io/guide/5-ds-and-3-ns-red-flags-vertebrobasilar-insufficiency .
 * Dizziness and nausea that settle within minutes, and unsteady walking, are urgent in our content [convention].
 */
export const dsAndNs: readonly PublishedSign[] = [
  urgent('dizziness', ['I got dizzy during that one', 'My head feels swimmy'], ['Me mareé en esa serie', 'Tengo mareo']),
  emergency(
    'dizziness that lasts',
    ['The dizziness has not stopped for ten minutes', 'The room keeps spinning, it has been half an hour'],
    ['El mareo no se me pasa desde hace diez minutos', 'Todo me da vueltas desde hace media hora'],
  ),
  emergency('diplopia', ['I see everything twice', 'My vision has gone double'],
    ['Lo veo todo doble', 'Se me puso la vista doble']),
  emergency('drop attack', ['I dropped to the floor without warning', 'My legs went from under me and I was down'],
    ['Me desplomé sin aviso', 'Las piernas me fallaron de golpe y acabé en el suelo']),
  emergency('dysarthria', ['I am slurring my words', 'My tongue will not do what I want when I speak'],
    ['Arrastro las palabras', 'La lengua no me obedece cuando hablo']),
  emergency('dysphagia', ['I cannot get my food down, it sticks', 'It is suddenly hard to swallow'],
    ['No me pasa la comida, se me atora', 'De repente me cuesta tragar']),
  urgent('ataxia of gait', ['I walk as if I were drunk', 'I keep staggering to one side'],
    ['Camino como si estuviera borracho', 'Me voy para un lado al caminar']),
  urgent('nausea', ['I feel sick to my stomach now', 'I feel nauseous after that set'],
    ['Tengo ganas de vomitar', 'Me dieron náuseas después de la serie']),
  emergency('numbness', ['One side of my face is numb', 'My lips and cheek have gone numb'],
    ['Tengo dormido un lado de la cara', 'Se me durmieron los labios y la mejilla']),
  emergency('nystagmus', ['My eyes are jerking by themselves', 'My eyes will not hold still, they jump'],
    ['Los ojos se me mueven solos a tirones', 'No puedo dejar los ojos quietos, me saltan']),
]

/** Cook 2010, J Man Manip Ther 18(4):175-180, and what of it a chat can ask [memory:high]: "any yes: stop, urgent review". */
export const cord: readonly PublishedSign[] = [
  urgent(
    'clumsy hands: buttons',
    ['I struggle with buttons these days', 'Buttoning my shirt has become hard, my fingers are clumsy'],
    ['Me cuesta abotonarme la camisa', 'Ya no me apaño con los botones, tengo los dedos torpes'],
  ),
  urgent('clumsy hands: writing', ['My writing has become shaky and hard to read', 'I can hardly write any more'],
    ['Mi letra se ha vuelto ilegible', 'Ya casi no puedo escribir']),
  urgent('unsteady legs', ['I am wobbly on my legs', 'My legs do not feel steady when I walk'],
    ['Me siento inestable al caminar', 'Las piernas no me llevan firmes']),
  urgent('stiff legs', ['My legs have become stiff and heavy when walking', 'I walk stiffly, like a robot'],
    ['Camino con las piernas tiesas', 'Se me ponen rígidas las piernas al andar']),
  urgent('numb hands on both sides', ['Both hands tingle', 'I have no feeling in either hand'],
    ['Me hormiguean las dos manos', 'No siento ninguna de las dos manos']),
  urgent(
    'electric shock down the spine',
    ['A shock runs down my spine when I look down', 'When I tuck my chin it is like electricity in my back'],
    ['Me baja un calambre por la espalda cuando miro hacia abajo', 'Al agachar la cabeza siento electricidad en la columna'],
  ),
  urgent('bladder change', ['I leak urine since last week', 'I cannot feel when my bladder is full any more'],
    ['Desde la semana pasada se me escapa la orina', 'Ya no noto cuándo tengo la vejiga llena']),
  urgent('bowel change', ['I had an accident in my pants, I could not hold it', 'I have lost control of my bowel'],
    ['Me hice encima, no pude aguantar', 'No controlo el intestino']),
]

/**
 * Finucane 2020, JOSPT 50(7):350-372, and Blanpied 2017, JOSPT 47(7):A1-A83, the lists [memory:high]; levels [convention].
 * Left out: failure to improve, which is counted from the answers of six weeks.
 * Histories are told together with a sign: alone they are asked at enrolment (`who-may-be-enrolled.test.ts`) and are no sign.
 */
export const seriousDisease: readonly PublishedSign[] = [
  urgent(
    'cancer: past cancer, with a sign',
    ['I had cancer and now I am losing weight for no reason', 'I have had breast cancer and the pain wakes me every night'],
    ['Tuve cáncer y ahora estoy bajando de peso sin motivo', 'Tuve cáncer de mama y el dolor me despierta todas las noches'],
  ),
  routine(
    'cancer: weight loss',
    ['I have lost a lot of weight without trying', 'The weight is falling off me and I eat as always'],
    ['He bajado mucho de peso sin proponérmelo', 'Adelgazo y como igual que siempre'],
  ),
  routine(
    'cancer: unremitting night pain',
    ['It hurts all night whatever I do', 'The pain wakes me every night and nothing helps'],
    ['Me duele toda la noche haga lo que haga', 'El dolor me despierta cada noche y nada me ayuda'],
  ),
  routine('cancer: unwell', ['I do not feel well at all', 'I have been feeling poorly for days'],
    ['No me siento nada bien', 'Llevo días encontrándome mal']),
  routine('infection: fever', ['I am running a temperature', 'My temperature is 38.5'],
    ['Tengo calentura', 'Tengo 38 y medio de temperatura']),
  routine('infection: chills', ['I keep shivering with chills', 'I had the shivers all night'],
    ['Tengo escalofríos', 'Pasé la noche con escalofríos']),
  routine(
    'infection: immune suppression, with fever',
    ['I am on chemotherapy and I have a fever', 'My immune system is weak and I have a temperature'],
    ['Estoy con quimio y tengo fiebre', 'Tengo las defensas bajas y me subió la fiebre'],
  ),
  routine(
    'infection: injecting drugs, with fever',
    ['I inject drugs and I have a fever', 'I have been shooting up and now I am feverish'],
    ['Me inyecto drogas y tengo fiebre', 'Me he pinchado y ahora estoy con fiebre'],
  ),
  routine(
    'infection: contact with tuberculosis, with fever',
    ['My flatmate has tuberculosis and I have a fever', 'I was near somebody with TB and I run a fever'],
    ['Mi compañero tiene tuberculosis y yo tengo fiebre', 'Estuve con alguien con tuberculosis y ando con fiebre'],
  ),
  urgent(
    'infection: after surgery',
    ['I have a fever since my operation and the wound is red', 'Since the surgery the wound runs pus'],
    ['Tengo fiebre desde la operación y la herida está roja', 'Desde la cirugía la herida me supura'],
  ),
  urgent('fracture: trauma', ['I fell yesterday', 'I got a knock on the neck at football'],
    ['Ayer me caí', 'Me dieron un golpe en el cuello jugando al fútbol']),
  urgent(
    'fracture: brittle bones, with trauma',
    ['I have osteoporosis and I fell in the garden', 'My bones are brittle and I tripped'],
    ['Tengo osteoporosis y me caí en el jardín', 'Tengo los huesos frágiles y me tropecé y caí'],
  ),
  urgent(
    'fracture: long on steroids, with trauma',
    ['I have been on steroids for years and I fell', 'I take cortisone and I had a fall today'],
    ['Llevo años con corticoides y me caí', 'Tomo cortisona y hoy tuve una caída'],
  ),
  urgent(
    'fracture: severe midline pain',
    ['I have terrible pain right on the bone in the middle of my neck', 'The bone at the back of my neck hurts unbearably'],
    [
      'Tengo un dolor terrible justo en el hueso en medio del cuello',
      'El hueso de atrás del cuello me duele de forma insoportable',
    ],
  ),
  emergency('cauda: saddle numbness', ['I cannot feel myself when I wipe', 'My private parts have gone numb'],
    ['No siento cuando me limpio', 'Se me durmieron las partes íntimas']),
  emergency('cauda: new retention', ['I need to pee but nothing comes out', 'I have not been able to pass water all day'],
    ['Quiero orinar y no sale nada', 'No he podido hacer pis en todo el día']),
  emergency('cauda: new incontinence', ['I wet myself without noticing', 'I have become incontinent'],
    ['Me oriné sin darme cuenta', 'Me he vuelto incontinente']),
  emergency('cord: weakness of both legs', ['Both legs have gone weak', 'I have no strength in my legs'],
    ['Las dos piernas se me pusieron débiles', 'No tengo fuerza en las piernas']),
  emergency('cord: numbness of both legs', ['Both my legs feel numb', 'I cannot feel my legs'],
    ['Tengo las dos piernas dormidas', 'No siento las piernas']),
  urgent('cord: worsening walking', ['I walk worse every week', 'Walking gets harder and harder for me'],
    ['Camino peor cada semana', 'Cada vez me cuesta más caminar']),
  askUrgent(
    'upper neck: the head falling off',
    ['It feels as if my head were falling off', 'My head feels too loose on my neck, as if it would fall off'],
    ['Siento como si se me cayera la cabeza', 'Siento la cabeza suelta, como si se me fuera a caer'],
  ),
  emergency('upper neck: facial tingling', ['I have tingling in my face', 'My lips and chin are tingling'],
    ['Tengo hormigueo en la cara', 'Me hormiguean los labios y la barbilla']),
  urgent(
    'arteritis: new headache over 50',
    ['I am 67 and I have a new headache at the temples', 'I am over seventy and get headaches I never had before'],
    ['Tengo 67 años y un dolor de cabeza nuevo en las sienes', 'Paso de los setenta y tengo dolores de cabeza que nunca tuve'],
  ),
  urgent(
    'arteritis: jaw pain',
    ['My jaw hurts when I chew and I have a new headache', 'A new headache, and chewing makes my jaw ache'],
    [
      'Me duele la mandíbula al masticar y tengo un dolor de cabeza nuevo',
      'Dolor de cabeza nuevo y al masticar me duele la quijada',
    ],
  ),
  urgent(
    'arteritis: visual change',
    ['I have a new headache and my sight is blurred', 'My vision has changed and my temples ache'],
    ['Tengo un dolor de cabeza nuevo y veo borroso', 'Me cambió la vista y me duelen las sienes'],
  ),
]

/**
 * ICHD-3, section 6 [found] http://beta.ichd-3.org/6-headache-attributed-to-cranial-or-cervical-vascular-disorder/ ; the urgent
 * ones [found] https://pmc.ncbi.nlm.nih.gov/articles/PMC9710804/table/table2
 */
export const headache: readonly PublishedSign[] = [
  emergency(
    'thunderclap',
    ['A terrible headache hit me like lightning', 'The most violent headache of my life came within a minute'],
    ['Me dio un dolor de cabeza terrible como un rayo', 'El dolor de cabeza más fuerte de mi vida me vino en un minuto'],
  ),
  emergency(
    'at its worst within seconds',
    ['My headache went from zero to ten in seconds', 'Within seconds my head hurt worse than ever'],
    ['El dolor de cabeza pasó de cero a diez en segundos', 'En segundos la cabeza me dolió más que nunca'],
  ),
  emergency(
    'sudden, under effort',
    ['While I was pushing, a sudden awful headache shot in', 'In the last set my head suddenly exploded with pain'],
    [
      'Mientras empujaba me entró de golpe un dolor de cabeza horrible',
      'En la última serie la cabeza me estalló de dolor de repente',
    ],
  ),
  urgent('sudden onset', ['I suddenly got a headache', 'A headache came on all of a sudden'],
    ['De repente me dio dolor de cabeza', 'Me empezó un dolor de cabeza de golpe']),
  askUrgent(
    'raised pressure',
    [
      'My head hurts more when I lie down or cough and I throw up in the mornings',
      'Every morning I wake up with a headache and vomit',
    ],
    [
      'La cabeza me duele más acostado o al toser y vomito por las mañanas',
      'Cada mañana me despierto con dolor de cabeza y vomito',
    ],
  ),
  emergency('with a deficit', ['I have a headache and my left arm is weak', 'My head hurts and I cannot find my words'],
    ['Me duele la cabeza y tengo el brazo izquierdo sin fuerza', 'Me duele la cabeza y no me salen las palabras']),
  urgent('with new visual symptoms', ['I have a headache and I see blurred', 'My head aches and there are flashes in my sight'],
    ['Me duele la cabeza y veo borroso', 'Me duele la cabeza y veo destellos']),
  urgent(
    'new in pregnancy',
    ['I am pregnant and I have a bad new headache', 'I am expecting and have a headache I never had before'],
    [
      'Estoy embarazada y tengo un dolor de cabeza nuevo y fuerte',
      'Estoy esperando un bebé y tengo un dolor de cabeza que nunca tuve',
    ],
  ),
  urgent('with feeling unwell', ['I have a new headache and feel really ill', 'I feel ill, with a fever and a new headache'],
    ['Tengo un dolor de cabeza nuevo y me siento muy enfermo', 'Me siento mal, con fiebre y un dolor de cabeza nuevo']),
  urgent(
    'after an injury of head or neck',
    ['I hit my head on Monday and now I have a headache', 'My head hurts since I fell on it'],
    ['El lunes me golpeé la cabeza y ahora me duele', 'Me duele la cabeza desde que me caí'],
  ),
]
