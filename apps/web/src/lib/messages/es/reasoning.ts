// Data: the words for what the model and people say of a bin, in Spanish.
import type { DutyKind, ReasonCode, RemedyId, SeenKind, SignalId, Smell, Squeeze, SurpriseCause } from '@middenry/domain';
import type { Format } from '../../format/format.ts';
import type { FlagFacts, RemedyFacts, SignalWords } from '../en/reasoning.ts';
import type { Reading } from '../values.ts';
import { byDay } from './figures.ts';
import { smells, squeezes, zoneTail } from './science.ts';

const inZone = (zone: number | string | null) => (zone === null ? 'La comida' : `La zona ${zone}`);

/** "para hoy", but "para el viernes". */

const likely = (x: FlagFacts, now: string, will: string, may: string) =>
  x.holdsNow ? now : x.by !== null ? `${will} para ${byDay(x.by)}.` : `${may}.`;

/** Of a feeding that is still to come. */
const isAhead = (v: Reading, f: Format) => v.day !== null && v.day > f.settings.today;

const dated = (v: Reading, f: Format, before = ' ') => (v.day === null ? '' : `${before}el ${f.date(v.day)}`);

const waterIn = (v: Reading) => {
  const share = v.percent('moistureFracWb');
  return share === null ? null : `${share} de agua`;
};

const signals: Record<SignalId, SignalWords> = {
  airless: {
    name: 'sin aire',
    short: () => 'falta aire',
    says: (x) =>
      likely(
        x,
        `A ${inZone(x.zone).toLowerCase()} le falta aire.`,
        `${inZone(x.zone)} puede quedarse sin aire`,
        `A ${inZone(x.zone).toLowerCase()} le puede faltar aire`,
      ),
    else: 'Si no se hace nada, empezará a oler. Las lombrices se irán de ese rincón.',
  },
  overfed: {
    name: 'demasiada comida',
    short: () => 'mucha comida',
    says: (x) => likely(x, 'Entra más comida de la que se come.', 'Es probable que se junte comida', 'Puede que se junte comida'),
    else: 'Si entra más, la comida se calienta, se aprieta y huele.',
  },
  hungry: {
    name: 'hambre',
    short: () => 'poca comida',
    says: (x) =>
      likely(
        x,
        'A las lombrices les queda poco que comer.',
        'Es probable que las lombrices se queden sin comida',
        'Las lombrices pueden quedarse sin comida',
      ),
    else: 'Sin comida las lombrices encogen y ponen menos huevos.',
  },
  dry: {
    name: 'seca',
    short: (x) => (x.holdsNow ? 'muy seca' : 'se seca'),
    says: (x) => likely(x, 'El lecho está muy seco.', 'Es probable que el lecho se seque', 'El lecho puede secarse'),
    else: 'En un lecho seco las lombrices dejan de comer y se van.',
  },
  wet: {
    name: 'mojada',
    short: (x) => (x.holdsNow ? 'muy mojada' : 'se moja'),
    says: (x) => likely(x, 'El lecho está muy mojado.', 'Es probable que el lecho se moje mucho', 'El lecho puede mojarse mucho'),
    else: 'Un lecho mojado cierra el paso al aire y empieza a oler.',
  },
  hot: {
    name: 'calor',
    short: () => 'mucho calor',
    says: (x) =>
      likely(
        x,
        'El lecho está muy caliente para las lombrices.',
        'Es probable que el lecho se caliente mucho',
        'El lecho puede calentarse mucho',
      ),
    else: 'Por encima de unos 30 °C las lombrices se van o mueren.',
  },
  cold: {
    name: 'frío',
    short: () => 'mucho frío',
    says: (x) =>
      likely(
        x,
        'Hace tanto frío en el lecho que las lombrices apenas comen.',
        'Es probable que el lecho se enfríe mucho',
        'El lecho puede enfriarse mucho',
      ),
    else: 'Con frío la comida se queda sin comer. La helada puede matar.',
  },
  sour: {
    name: 'agria',
    short: () => 'se agria',
    says: (x) => likely(x, 'El lecho se está agriando.', 'Es probable que el lecho se agrie', 'El lecho puede agriarse'),
    else: 'Las lombrices se van de un lecho agrio.',
  },
  ammonia: {
    name: 'amoniaco',
    short: () => 'olor fuerte',
    says: (x) =>
      likely(
        x,
        'Suelta un gas fuerte, amoniaco.',
        'Es probable que suelte un gas fuerte, amoniaco,',
        'Puede soltar un gas fuerte, amoniaco',
      ),
    else: 'Hasta un poco de este gas daña a las lombrices.',
  },
  'bedding-low': {
    name: 'poca cama',
    short: () => 'poca cama',
    says: (x) => likely(x, 'Casi no queda cama.', 'Es probable que la cama se acabe', 'Queda poca cama'),
    else: 'Sin cama, la comida se aprieta y las lombrices no tienen adónde ir.',
  },
  'harvest-due': {
    name: 'toca cosechar',
    short: () => 'lista para cosecha',
    says: (x) =>
      likely(x, 'El humus está listo para cosechar.', 'Es probable que el humus esté listo', 'El humus puede estar listo pronto'),
    else: 'Si hay demasiado humus, las lombrices trabajan menos.',
  },
  unseen: {
    name: 'nadie ha mirado',
    short: () => 'sin mirar',
    says: () => 'No sabemos cómo está esta compostera.',
    else: 'Los problemas empiezan entre visitas y nadie lo sabría.',
  },
};

const reasons: Record<ReasonCode, (v: Reading, f: Format) => string> = {
  'layer-deep': (v) =>
    `La comida${zoneTail(v.zone)} tiene ${v.depth('layerDepthM') ?? 'mucho'} de fondo. El aire entra ${v.depth('airDepthM') ?? 'solo una parte'}, más o menos.`,
  'fed-much': (v, f) =>
    isAhead(v, f)
      ? `Van a entrar ${v.mass('massKg') ?? 'muchos restos'}${zoneTail(v.zone)} ${f.on(v.day ?? '')}. Entonces admite ${v.mass('capKg') ?? 'menos'}.`
      : `Entraron ${v.mass('massKg') ?? 'muchos restos'}${zoneTail(v.zone)}${dated(v, f)}. Ese día admitía ${v.mass('capKg') ?? 'menos'}.`,
  'fed-without-bedding': (v, f) =>
    isAhead(v, f)
      ? `Con la comida de siempre, ${f.on(v.day ?? '')} no entra cartón ni papel. La comida blanda se aprieta y no deja pasar el aire.`
      : `No entró cartón ni papel${dated(v, f)}. La comida blanda se aprieta y no deja pasar el aire.`,
  'food-in-hand': (v) =>
    `Hay comida para ${v.foodDays('days') ?? 'muchos días'}. Más de ${v.days('limitDays') ?? 'dos semanas'} es demasiado.`,
  'feeding-left': (v) =>
    `${v.percent('leftFrac') ?? 'Mucho'} de la última comida${zoneTail(v.zone)} sigue ahí${v.days('days') === null ? '' : ` después de ${v.days('days')}`}.`,
  'food-short': (v) => `Hay comida para ${v.foodDays('days') ?? 'menos de un día'}.`,
  'too-dry': (v) => `Calculamos que el lecho tiene ${waterIn(v) ?? 'muy poca agua'}. Le va bien de 70 a 80 %.`,
  'too-wet': (v) => `Calculamos que el lecho tiene ${waterIn(v) ?? 'demasiada agua'}. Le va bien de 70 a 80 %.`,
  packed: (v) => `El lecho se ha apretado. Solo ${v.percent('airFilledPorosity') ?? 'un poco'} es aire.`,
  'bed-hot': (v) => `El lecho llega a ${v.temp('tempC') ?? 'demasiado calor'}.`,
  'bed-cold': (v) => `El lecho baja a ${v.temp('tempC') ?? 'casi cero'}.`,
  'air-hot': (v) => `El aire llega a ${v.temp('tempC') ?? 'mucho calor'} en esta época.`,
  'air-cold': (v) => `El aire baja a ${v.temp('tempC') ?? 'mucho frío'} en esta época.`,
  smelled: (v, f) => `Alguien anotó que huele ${smellWord(v.text('smell'))}${dated(v, f, ', ')}.`,
  squeezed: (v, f) => `Al apretar un puñado: ${squeezeWord(v.text('squeeze'))}${dated(v, f, ', ')}.`,
  'ph-low': (v) => `El pH medido es ${v.number('ph', 1) ?? 'bajo'}. Por debajo de 5,5 es muy agrio.`,
  'nitrogen-high': (v) =>
    `Hay poco cartón o papel para tanta comida verde.${v.number('cnRatio') === null ? '' : ` Carbono y nitrógeno están ${v.number('cnRatio')} a 1.`}`,
  'bedding-eaten': (v) =>
    `La cama ha bajado a ${v.percent('beddingFrac') ?? 'muy poco'} del lecho. Debe ser al menos ${v.percent('minFrac') ?? 'algo más'}.`,
  'castings-deep': (v) =>
    `Dentro hay ${v.mass('castingsKg') === null ? 'mucho' : `unos ${v.mass('castingsKg')} de`} humus${v.depth('levelM') === null ? '' : `, con ${v.depth('levelM')} de fondo`}.`,
  'bin-old': (v) =>
    v.number('sinceHarvestDays') === null
      ? `Lleva en marcha ${v.days('ageDays') ?? 'mucho tiempo'}.`
      : `La última cosecha fue hace ${v.days('sinceHarvestDays')}.`,
  'not-seen': (v) =>
    `Nadie ha anotado una revisión desde hace ${v.days('days') ?? 'mucho tiempo'}. Lo normal es cada ${v.days('intervalDays') ?? 'semana'}.`,
};

const remedies: Record<RemedyId, (x: RemedyFacts, f: Format) => string> = {
  'hold-next-feed': () => 'Sáltate la próxima comida',
  'feed-half': (x, f) => (x.massKg === null ? 'Da la mitad la próxima vez' : `Da la mitad la próxima vez, ${f.mass(x.massKg)}`),
  'feed-now': (x, f) => `Echa ${x.massKg === null ? 'comida' : `${f.mass(x.massKg)} de comida`}${zoneTail(x.zone)}`,
  'take-out-uneaten': (x, f) => `Saca ${x.massKg === null ? 'la comida' : f.mass(x.massKg)} sin comer${zoneTail(x.zone, ' de la')}`,
  loosen: (x) => (x.zone === null ? 'Afloja el lecho' : `Afloja la zona ${x.zone}`),
  'mix-in-bedding': (x, f) =>
    `${x.zone === null ? 'Afloja el lecho' : `Afloja la zona ${x.zone}`} y mezcla ${x.massKg === null ? 'cartón seco' : `${f.mass(x.massKg)} de cartón seco`}`,
  'add-bedding': (x, f) => `Añade ${x.massKg === null ? 'cartón roto' : `${f.mass(x.massKg)} de cartón roto`}`,
  'add-water': (x, f) => `Añade ${x.massKg === null ? 'agua' : `${f.water(x.massKg)} de agua`}`,
  drain: () => 'Abre el desagüe y deja que salga',
  shade: () => 'Ponla a la sombra o tápala del sol',
  insulate: () => 'Abrígala contra el frío',
  harvest: (x, f) => `Cosecha ${x.massKg === null ? 'el humus' : `unos ${f.mass(x.massKg)} de humus`}`,
  inoculate: (x, f) => `Añade ${x.massKg === null ? '' : `${f.mass(x.massKg)} de `}compost maduro`,
  'ground-eggshell': (x, f) => `Echa ${x.massKg === null ? 'cáscara de huevo molida' : `${f.mass(x.massKg)} de cáscara de huevo molida`}`,
  check: (x) => (x.zone === null ? 'Aprieta un puñado y anota lo que ves' : `Aprieta un puñado de la zona ${x.zone}`),
};

const duties: Record<DutyKind, string> = {
  feed: 'Dar comida',
  check: 'Revisar',
  loosen: 'Aflojar',
  water: 'Regar',
  bedding: 'Añadir cama',
  inoculate: 'Añadir compost maduro',
  harvest: 'Cosechar',
  rest: 'Dejar descansar',
};

const seen: Record<SeenKind, (zone: number | null) => string> = {
  leftover: (zone) => `la comida que queda${zoneTail(zone)}`,
  squeeze: () => 'el puñado apretado',
  smell: () => 'el olor',
  temperature: () => 'el calor del lecho',
  worms: () => 'el número de lombrices',
  ph: () => 'el pH',
  level: () => 'la altura del lecho',
  harvest: () => 'el peso de la cosecha',
};

const surpriseCauses: Record<SurpriseCause, string> = {
  'feeding-not-logged': 'una comida que nadie anotó',
  larvae: 'larvas de mosca soldado',
  'wrong-unit': 'una unidad equivocada',
  'wrong-bin': 'una nota para otra compostera',
  'mistaken-reading': 'un error al leer',
  'harvest-not-logged': 'una cosecha que nadie anotó',
  'worms-left': 'lombrices que se han ido',
};

function smellWord(smell: string | null): string {
  return smell !== null && smell in smells ? smells[smell as Smell] : 'mal';
}

function squeezeWord(squeeze: string | null): string {
  return squeeze !== null && squeeze in squeezes ? squeezes[squeeze as Squeeze] : 'más agua de la que le va bien';
}

/** Why a bin is as it is and what helps: said on the board and on the bin's page, not in the log form. */
export const reasoning = {
  trend: {
    airlessFrac: { name: 'Comida sin aire', value: (v: string) => `${v} sin aire` },
    moistureFracWb: { name: 'Humedad', value: (v: string) => `${v} de agua` },
    foodInHandDays: { name: 'Días de comida', value: (v: string) => `${v} de comida` },
    bedTempC: { name: 'Calor del lecho', value: (v: string) => `${v} en el lecho` },
    castingsKgWb: { name: 'Humus dentro', value: (v: string) => `${v} de humus` },
    says: (name: string, value: string, way: string, place: string) => `${name}, 8 semanas: ${value}, ${way}, ${place}`,
    rising: 'sube',
    falling: 'baja',
    level: 'sigue igual',
    above: 'más de lo normal',
    below: 'menos de lo normal',
    within: 'dentro de lo normal',
  },
  signals,
  reasons,
  remedies,
  surpriseCauses,
  seen,
  duties,
};
