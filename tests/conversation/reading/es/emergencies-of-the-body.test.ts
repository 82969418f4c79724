import { describe, expect, it } from 'vitest'
import type { SignName } from '#src/conversation/reading/signs.ts'
import { readerOf } from '../reading-of.ts'

const { surely } = readerOf('es')

// The phrasings are our own, from memory of the language as it is spoken in Spain, Mexico, Colombia and Argentina.
const emergencies: Readonly<Partial<Record<SignName, readonly string[]>>> = {
  'chest-pain-or-breathless': [
    'me aprieta aquí en el pecho', 'tengo un elefante sentado en el pecho', 'me duele el pecho y se me va al brazo',
    'me falta el aire y estoy sentada', 'apenas puedo respirar', 'no me llega el aire', 'siento como una faja en el pecho',
    'me duele del lado del corazón', 'no puedo ni terminar la frase de lo ahogada que estoy', 'me estoy quedando sin aire',
    'tengo el pecho apretado', 'me arde el pecho al respirar', 'una punzada en el corazón', 'me oprime la caja del pecho',
    'no agarro aire', 'respiro como pez fuera del agua', 'me cuesta jalar aire', 'dolor en el pecho que se va a la mandíbula',
    'siento que me aplastan el pecho', 'me sofoco sin hacer nada', 'se me cierra el pecho', 'me da una puntada en el pecho',
    'creo que me está dando un infarto', 'no hay aire que me alcance', 'el pecho me oprime', 'siento que me ahogo',
    'no puedo respirar bien desde hace rato', 'me duele el corazón', 'dolor de pecho',
    'tengo una presión fuerte en medio del pecho', 'me falta aire hasta para hablar', 'se me va el aire', 'estoy con ahogos',
    'me duele el pecho y sudo frío', 'siento opresión en el pecho', 'me cuesta mucho respirar', 'no puedo respirar',
    'tengo un dolor en el pecho que baja al brazo izquierdo', 'me ahogo estando quieta', 'el pecho se me cierra',
    'se me corta la respiración',
  ],
  'saddle-bladder-bowel': [
    'me hice del dos encima esta mañana, no lo pude aguantar', 'quiero orinar y no sale nada',
    'desde la semana pasada se me escapa la orina', 'tengo ganas de mear pero no sale', 'me mojo los pantalones sin enterarme',
    'se me salen las heces', 'no me entero de cuándo hago pis', 'no siento cuando voy al baño',
    'llevo todo el día sin poder hacer pipí', 'gotea la orina sola', 'me oriné dormida',
    'tengo la vejiga llena y no puedo vaciar', 'me hice popó encima', 'no siento las nalgas', 'tengo dormido el trasero',
    'la zona íntima dormida', 'me limpio y no siento nada', 'no me sale la pis por más que hago fuerza',
    'se me durmieron las dos piernas', 'hormigueo de la cintura para abajo',
    'me siento como sentada en un cojín, no noto el culo', 'se me escapan los pedos y la caca sin sentir',
    'no aguanto la pis, se me sale', 'mojé la cama', 'me meé viva y ni me di cuenta', 'hago fuerza y la orina no sale',
    'ya ni siento ganas de ir al baño', 'estoy que reviento y no puedo orinar', 'no me sale el pis', 'se me sale el pipí',
    'me hago encima', 'no siento ahí abajo', 'llevo desde ayer sin poder orinar', 'me ensucié sin darme cuenta',
    'tengo entumido entre las piernas', 'no controlo los esfínteres', 'perdí el control de la vejiga',
    'se me duermen ambos pies y las piernas', 'tengo que pujar para que salga la orina', 'me cuesta empezar a orinar',
    'me orino encima', 'no puedo aguantar la orina', 'se me escapa el popó', 'no siento mis partes', 'no puedo hacer pipí',
    'tengo dormidas las nalgas y la ingle', 'las dos piernas se me durmieron', 'no me doy cuenta cuando me orino',
  ],
  'fever-stiff-neck': [
    'sí tengo temperatura y la nuca rígida no baja la cabeza y la luz me molesta un monton',
    'fiebre y no puedo bajar la cabeza', '39 de fiebre y la nuca como una tabla', 'calentura y el cuello no se dobla',
    'ardo en fiebre y no llego con la barbilla al pecho', 'escalofríos y el cuello duro como piedra',
    'fiebre alta, cuello tieso y no puedo pensar con claridad', 'estoy afiebrado y tengo el cuello trancado',
    'tengo fiebre y el cuello no me gira nada', 'fiebre, me molesta la luz y la nuca agarrotada',
    'la barbilla no me llega al pecho y tengo 38.7', 'fiebre con cuello duro', 'tengo el cuello rígido y 39 de fiebre',
    'no puedo agachar la cabeza y ando con calentura', 'nuca tiesa y escalofríos', 'cuello tieso y fiebre desde ayer',
    'mucha fiebre y no puedo mover el cuello',
  ],
  'dangerous-trauma': [
    'el sábado se me volcó la cuatrimoto encima', 'me taclearon fuerte y desde entonces me hormiguean los brazos',
    'choqué en la autopista a 120', 'me estrellé con el cuatriciclo', 'el coche volcó conmigo dentro', 'me caí del quad',
    'nos dimos un piñazo con el carro en la ruta', 'di una vuelta de campana', 'me chocaron de atrás a toda velocidad',
    'salí por encima del manubrio', 'volé por encima del manillar', 'me caí del techo',
    'me tiré a la pileta y toqué fondo con la cabeza', 'me clavé de cabeza en la alberca', 'me rodé por las gradas',
    'me caí de una altura de tres metros', 'me tumbó una ola y caí de cabeza', 'una moto me pasó por encima',
    'un toro me revolcó', 'me cayó un bulto en la cabeza', 'me abrí la cabeza', 'me di un madrazo en la cabeza',
    'me pegué en la cabeza con el marco', 'me estampé con la bici contra un auto', 'me caí de la moto de nieve',
    'me caí esquiando y me golpeé la cabeza', 'tuve un accidente en la carretera', 'me aventó el caballo',
    'en el rugby se derrumbó la melé encima mío', 'me atropellaron', 'me caí por las escaleras', 'me caí de un árbol',
    'me atropelló una bici', 'tuvimos un choque con la camioneta', 'me caí del caballo', 'me golpeé la cabeza contra el suelo',
    'volqué con el tractor', 'me embistió un carro', 'me tiré un clavado y me pegué en la cabeza',
    'me caí y desde entonces no siento los dedos', 'salí despedido de la moto', 'me resbalé de la escalera de mano',
    'me di un trancazo en la cabeza con la viga', 'me cayó una tabla en la cabeza', 'me caí de la azotea', 'choque con la moto',
    'me aventaron de un caballo', 'me pegué muy fuerte en la cabeza', 'me arrollo un carro', 'un coche me llevó por delante',
    'me fui por el barranco en la bici', 'me caí de espaldas y me pegué en la nuca y se me duermen las manos',
    'nos volcamos en la carretera', 'me rompí la cabeza contra un poste',
  ],
  'head-dropping': [
    'de golpe la cabeza me pesa tanto que se me cae hacia delante y ahí se queda',
    'después el cuello no dio más y se me descolgó la cabeza, la tengo que sujetar con la mano',
    'siento como si se me cayera la cabeza', 'siento la cabeza suelta, como si se me fuera a caer', 'la cabeza me cuelga',
    'no aguanto la cabeza derecha', 'tengo que sostenerme la cabeza con las manos', 'la cabeza se me hunde en el pecho',
    'el cuello ya no me aguanta la cabeza', 'camino con el mentón pegado al pecho, no lo puedo subir',
    'la cabeza se me va para adelante sola', 'no soy capaz de mantener la cabeza erguida',
    'se me vence el cuello y la cabeza se cae', 'me tengo que aguantar la cabeza con la mano', 'no puedo enderezar la cabeza',
    'la cabeza se me dobla hacia adelante', 'la cabeza no se me sostiene', 'el cuello no me sostiene la cabeza',
    'se me cae la cabeza al pecho', 'se me va la cabeza hacia delante y no la puedo levantar',
    'no aguanto el peso de la cabeza', 'tengo que sujetar mi cabeza con las manos',
  ],
  'self-harm': [
    'ya no quiero estar aquí', 'mejor me muero', 'ojalá no amaneciera', 'pienso en tirarme al metro', 'me quiero matar',
    'sería mejor no existir', 'me corto los brazos', 'no le veo sentido a seguir viva', 'quiero que se acabe mi vida',
    'he pensado en quitarme de en medio', 'me tomé un frasco de pastillas', 'estoy pensando en hacer una tontería con mi vida',
    'quisiera dormirme y no despertar nunca', 'no merece la pena seguir viviendo', 'me gustaría desaparecer para siempre',
    'voy a acabar con todo', 'nadie me extrañaría si me muero', 'tengo ganas de morirme', 'me quiero ir de este mundo',
    'pienso en matarme todos los días', 'les haría un favor si me muero', 'no quiero seguir viviendo', 'me quiero morir',
    'tengo ideas de suicidarme', 'ya no aguanto vivir así, quiero morirme', 'me lastimé a propósito', 'pensé en ahorcarme',
    'quiero desaparecer', 'la vida no vale nada, mejor me mato', 'estoy pensando en quitarme la vida', 'prefiero estar muerto',
    'me quiero suicidar', 'ya no quiero vivir', 'pienso mucho en la muerte, quiero morir', 'quiero matarme',
    'mejor no despertar', 'voy a tomarme todas las pastillas', 'me hago cortes en los brazos',
  ],
  'being-hurt': [
    'la cuidadora me volvió a dar una cachetada', 'me dio una patada, por eso me duele el cuello',
    'mi esposo me sacudió del cuello', 'me jalan del pelo en casa', 'mi hijo me da cachetadas', 'mi novio me ahorcó',
    'me apretó el cuello mi pareja', 'en casa me pegan', 'mi padre me tira cosas', 'me da miedo mi marido', 'mi ex me amenaza',
    'me agarra fuerte y me empuja cuando se enoja', 'mi yerno me levantó la mano', 'el señor que me cuida me lastima',
    'me tiene encerrada', 'no estoy segura en casa con él', 'mi pareja me grita y me golpea',
    'me dejó moretones en los brazos mi marido', 'tengo miedo de volver a casa', 'mi jefe me manosea',
    'mi hermano me da trompadas', 'mi pareja me pega', 'me golpean en casa', 'mi marido me ha vuelto a pegar',
    'mi hijo me amenaza con un cuchillo', 'me maltrata mi cuidador', 'me empujó mi novio contra la pared',
    'me agarró del cuello mi pareja', 'me da miedo mi hijo', 'abusan de mí', 'mi papá me da con el cinturón', 'me pega mi hijo',
    'mi esposa me golpea', 'me pegaron en casa', 'tengo miedo de mi esposo', 'mi cuidadora me pellizca y me grita',
    'me violaron', 'mi hermano me aventó contra la pared',
  ],
}

describe('emergencies of the body, and danger from oneself or others, in lay words in Spanish', () => {
  const rows = Object.entries(emergencies).flatMap(([sign, said]) => said.map((text) => ({ sign, text })))

  it.each(rows)('$sign: "$text"', ({ sign, text }) => {
    expect(surely(text)).toContain(sign)
  })
})
