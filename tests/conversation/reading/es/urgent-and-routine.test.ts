import { describe, expect, it } from 'vitest'
import type { SignName } from '#src/conversation/reading/signs.ts'
import { readerOf } from '../reading-of.ts'

const { surely } = readerOf('es')

// The phrasings are our own, from memory of the language as it is spoken in Spain, Mexico, Colombia and Argentina.
const signs: Readonly<Partial<Record<SignName, readonly string[]>>> = {
  'arm-numbness': [
    'se me duerme el meñique por las noches', 'el brazo me hormiguea desde ayer', 'siento alfileres en los dedos',
    'tengo los dedos como con guante', 'no noto la punta del pulgar', 'la mano se me puso como dormida',
    'calambrito y adormecimiento en el antebrazo', 'se me entume la mano cuando aprieto', 'tengo un hormiguero en la mano',
    'me pica como hormigas en el brazo', 'se me acorchan los dedos', 'ando con la mano dormida', 'se me duerme el pie',
    'siento cosquillas en los dedos y no se quitan', 'el pulgar no lo siento', 'el hormigueo ya me llega al hombro',
    'me baja un hormigueo por el brazo', 'se me va la sensibilidad de los dedos', 'los dedos me cosquillean',
    'me dan piquetes en la mano', 'siento el dedo gordo dormido', 'el antebrazo lo tengo adormilado',
    'no siento bien los dedos', 'traigo la mano entumida', 'se me durmió toda la mano', 'siento hormigas en los dedos',
    'el codo y el meñique me cosquillean', 'la manita la tengo dormidita', 'se me adormece el brazo al dormir',
  ],
  'slow-weakness': [
    'agarro con menos fuerza que la semana pasada', 'la debilidad me va subiendo por el brazo',
    'cada mes abro menos frascos, la mano va a menos', 'cada vez levanto menos con el brazo derecho',
    'la mano va perdiendo fuerza poco a poco', 'desde hace meses la pierna está más floja',
    'el brazo me va aguantando menos cada semana', 'noto que aprieto menos con la mano que antes',
    'cada día me cuesta más levantar el brazo', 'mi mano se está quedando sin fuerza con el tiempo',
    'la pierna derecha se me ha ido debilitando', 'de a poquito se me va la fuerza del brazo',
    'llevo semanas notando la mano más débil', 'el brazo derecho se ha puesto más flaco y débil estos meses',
    'el brazo cada día más flojo', 'poco a poco la mano se me debilita', 'cada vez tengo menos fuerza en las manos',
    'el brazo se me debilita semana a semana',
  ],
  'clumsy-hands': [
    'ando torpe con las monedas y las llaves, con las dos manos', 'me cuesta abotonarme la camisa', 'no le atino a los botones',
    'se me caen las tazas', 'ya casi no puedo escribir', 'mi letra se ha vuelto ilegible', 'tecleo mal, se me van los dedos',
    'no puedo meter la llave en la cerradura', 'me cuesta usar los cubiertos',
    'parezco manos de mantequilla, todo se me resbala', 'no puedo contar las monedas con los dedos',
    'me tardo un montón en atarme los zapatos', 'no me salen los nudos de los cordones', 'se me enredan los dedos',
    'no logro enhebrar la aguja como antes', 'me hormiguean las dos manos', 'no siento ninguna de las dos manos',
    'las manos no me hacen caso', 'ando rompiendo platos porque se me resbalan', 'me cuesta abrocharme el sostén',
    'no puedo pasar las hojas del libro', 'escribo como niño chiquito de lo mal que me salen las letras',
    'ya no puedo coser ni enhebrar', 'tengo los dedos torpes', 'las llaves se me caen todo el tiempo',
    'la firma ya no me sale igual', 'se me cae todo de las manos', 'no puedo abrocharme la camisa',
    'ya no puedo enhebrar la aguja', 'tengo las dos manos dormidas',
  ],
  'electric-shock': [
    'siento un corrientazo por la espalda al bajar la cabeza', 'me baja un calambre por la espalda cuando miro hacia abajo',
    'un chispazo me recorre la columna', 'como si metiera los dedos en el enchufe',
    'me dan toques en la espalda cuando agacho la cabeza', 'un rayo por la espina cuando flexiono el cuello',
    'siento electricidad en la columna al agachar la cabeza', 'me pasa corriente por los brazos al doblar el cuello',
    'latigazo eléctrico por la espalda', 'me electrocuto cada vez que miro mis pies', 'me sube una descarga por la nuca',
    'zas, un corrientazo hasta los pies', 'me dio un toque eléctrico en el cuello', 'me da calambrazo al mirar abajo',
    'siento toques por la espalda cuando doblo el cuello', 'me da corriente por la espalda al agachar la cabeza',
    'un latigazo eléctrico cuando miro al suelo',
  ],
  'unsteady-walking': [
    'camino cada vez peor, como en un barco', 'las piernas no me llevan firmes', 'se me ponen rígidas las piernas al andar',
    'camino con las piernas tiesas', 'camino peor cada semana', 'me siento inestable al caminar',
    'me voy para un lado al caminar', 'ando como pato', 'me agarro de las paredes para caminar', 'tengo las piernas de palo',
    'las piernas me tiemblan al bajar escaleras y no las controlo', 'no camino derecho', 'ando dando tumbos',
    'voy haciendo eses', 'me tropiezo con mis propios pies', 'no tengo equilibrio en la ducha con los ojos cerrados',
    'siento las piernas duras y pesadas al caminar', 'piso como en algodón', 'casi me caigo al girar, no tengo equilibrio',
    'camino como robot', 'me voy de lado', 'me cuesta mantenerme en pie', 'me tambaleo', 'ando chueco, me voy de lado',
    'las piernas me fallan al caminar y voy pegada a la pared', 'camino tambaleándome', 'pierdo el equilibrio a cada rato',
    'camino como borracho', 'me voy de lado cuando camino',
  ],
  'light-headed': [
    'me sentí desfallecer al quitarme el arnés, se me pasó sentándome un minuto.',
    'se me nubló la cabeza un segundo en la ultima ya estoy', 'ando mareado', 'me dio un vahído',
    'siento que me voy a desmayar', 'me dieron náuseas', 'tengo ganas de vomitar', 'estoy como ida, con la cabeza flotando',
    'me bajó la presión', 'se me aflojó todo y vi estrellitas', 'tengo el estómago revuelto', 'me siento mareadito',
    'la cabeza se me fue un momento', 'quedé medio grogui', 'me dio como un bajón y sudé frío', 'ando atarantada',
    'me entró flojera y mareo', 'estoy mareadita', 'quiero vomitar', 'se me baja la presión', 'me sentí a punto de desmayar',
    'me dio mareo en la serie', 'me siento mareada', 'casi me desmayo', 'tengo asco y ganas de devolver',
  ],
  'pain-unlike-any': [
    'tengo un dolor de cabeza que no se parece a los de siempre',
    'un dolor nuevo en el cuello, totalmente distinto al de siempre', 'este dolor no es el de siempre',
    'nunca me había dolido así el cuello', 'es otro dolor, jamás lo había sentido', 'la cabeza me duele como nunca antes',
    'me duele de un modo que no conozco', 'dolor rarísimo en la nuca', 'en mi vida había tenido un dolor así',
    'el cuello me duele distinto hoy', 'me sale un dolor desconocido detrás de la oreja', 'no había sentido este dolor antes',
    'esto es nuevo, este dolor no lo tenía', 'dolor de cabeza muy distinto al de mis migrañas', 'jamás me había dolido así',
    'es un dolor raro, no el de siempre', 'este dolor es nuevo para mí', 'nunca había sentido este dolor',
    'es un dolor que no conocía',
  ],
  'pulsing-ear-noise': [
    'se me puso a retumbar la oreja con el pulso, como un tambor, nunca me había pasado',
    'desde ayer oigo los latidos en un oído', 'escucho mi corazón en la oreja',
    'tengo un pum pum en el oído al ritmo del corazón', 'el oído me palpita', 'siento un soplido en el oído con cada latido',
    'me zumba el oído al compás del pulso', 'tengo el pulso metido en la oreja',
    'oigo como olas al ritmo del corazón en un oído', 'un tambor en el oído derecho con los latidos',
    'siento el corazón dentro del oído', 'me suena el corazón en el oído', 'tengo el latido en la oreja izquierda',
    'oigo mi corazón en el oído izquierdo', 'me zumba el oído con cada latido',
  ],
  'other-trauma': [
    'porque un idiota me chocó despacio en el estacionamiento', 'me dieron un codazo en el cuello entrenando',
    'me caí de la silla', 'me resbalé en el baño', 'me di con la puerta del armario', 'me pegué un golpe en el hombro',
    'me dieron un pelotazo en el cuello', 'me tropecé con el perro y caí', 'frené de golpe y el cuello me hizo latigazo',
    'me fui de nalgas en la calle', 'me dieron un empujón y caí', 'me estampé contra el vidrio',
    'mi nieto me dio un cabezazo en la barbilla', 'me enredé con la alfombra y me caí', 'me caí de sentón',
    'patiné en el hielo y me caí de espaldas', 'me metí un porrazo', 'se me cayó una caja en el hombro',
    'me pegaron un balonazo en el cuello', 'me pegué con el cajón', 'me tropecé y me golpeé el hombro',
    'me llevé un golpe en la nuca', 'me caí jugando', 'me caí en la calle', 'me di un golpe en la espalda',
    'me resbalé con el agua y caí sentada', 'un tipo me empujó y me caí',
  ],
  'wound-change': [
    'la herida está roja', 'me sale agüita de la cicatriz', 'se me soltó un punto', 'los puntos huelen feo',
    'la cicatriz está caliente y me late', 'tengo la herida hinchada', 'la cicatriz me sangra', 'se me infectó la operación',
    'sale una cosa amarilla de donde me operaron', 'la gasa está manchada de pus', 'se me abrió la cicatriz',
    'los puntos están rojos e hinchados', 'donde me operaron está hinchado y rojo', 'me sangra la herida',
    'la cicatriz se puso roja y caliente', 'la herida me huele mal', 'me está saliendo líquido de la cicatriz',
  ],
  'severe-pain-now': [
    'se sale de la escala, estoy llorando del dolor', 'no puedo ni mover la cabeza de lo que duele, es inaguantable',
    'me está matando el cuello', 'el dolor es insoportable', 'estoy gritando de dolor', 'me duele horrible, no aguanto',
    'no puedo más del dolor', 'el hueso de atrás del cuello me duele de forma insoportable',
    'tengo un dolor terrible justo en el hueso en medio del cuello', 'me duele tanto que lloro',
    'el dolor me tiene doblada, es atroz', 'duele un 10 estando quieto', 'un dolor de los mil demonios', 'me retuerzo de dolor',
    'no soporto este dolor', 'me muero del dolor', 'es un dolor bestial en el cuello',
    'tengo un dolor horrible en el cuello que no aguanto', 'me duele tanto el cuello que estoy llorando',
  ],
  'two-illness-signs': [
    'bajo de peso sin querer y tuve cáncer de mama hace seis años', 'tuve cáncer y ahora estoy bajando de peso sin motivo',
    'tuve cáncer de mama y el dolor me despierta todas las noches', 'fiebre y mucho malestar',
    'tengo fiebre y el cuello me duele muchísimo', 'sudo de noche y he perdido cinco kilos',
    'me siento mal y estoy adelgazando', 'el dolor me despierta y ando con calentura', 'estoy flaquísimo y con fiebre',
    'fiebre y perdí peso', 'me siento enferma y con escalofríos',
  ],
  'weight-loss': [
    'estoy perdiendo kilos y no sé por qué', 'adelgazo y como igual que siempre',
    'se me caen los pantalones de lo que he bajado', 'he bajado cinco kilos sin hacer dieta', 'me estoy quedando en los huesos',
    'he adelgazado muchísimo', 'la ropa me queda grande',
  ],
  'night-pain': [
    'el dolor no me deja dormir en toda la noche, ni las pastillas ni nada me lo alivia', 'el dolor me despierta a las tres',
    'no pego ojo del dolor', 'de noche el dolor es peor y no se calma con nada', 'me duele toda la noche haga lo que haga',
    'me levanto en la madrugada por el dolor',
  ],
  fever: [
    'anoche tiritando con fiebre y sigo igual', 'tengo 38 y medio', 'tengo décimas', 'ando con calentura', 'me dan escalofríos',
    'tengo el termómetro en 38.5', 'pasé la noche con escalofríos',
  ],
  'feeling-ill': [
    'llevo días encontrándome mal', 'me siento fatal', 'creo que me dio gripa', 'no me siento nada bien', 'ando malísimo',
    'estoy hecho un trapo, con el cuerpo cortado y enfermo',
  ],
}

describe('urgent and routine signs, in lay words in Spanish', () => {
  const rows = Object.entries(signs).flatMap(([sign, said]) => said.map((text) => ({ sign, text })))

  it.each(rows)('$sign: "$text"', ({ sign, text }) => {
    expect(surely(text)).toContain(sign)
  })
})
