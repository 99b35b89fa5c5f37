// Data: the words of what is looked out for in every bin, in Spanish.
import type { SignalId, SignalOwner } from '@middenry/domain';
import type { FlagWords } from '../en/flags.ts';
import type { ForFlags } from '../shape.ts';

const each: Record<SignalId, FlagWords> = {
  airless: {
    cause: 'Mucha comida mojada en un sitio, apretada o puesta sin cama.',
    consequence: 'Se pudre sin aire: huele, se agria, y las lombrices se van o mueren.',
    action: 'Saca lo viscoso, afloja la zona y mezcla cama seca.',
    from: (v) => [
      `El ${v.percent('airlessFrac')} de una capa de comida no tiene aire.`,
      `O el aire del lecho tiene menos de un ${v.percent('baseOxygenFrac')} de oxígeno.`,
      `Nombramos una zona si tiene ${v.mass('leastFoodKg')} de comida o más.`,
      `Un lecho está apretado con menos de un ${v.percent('packedPorosity')} de aire.`,
      `Una comida es grande desde ${v.mass('bigFeedingKgM2')} por metro cuadrado.`,
    ],
    until: (v) => `Termina con un ${v.percent('back')} de la capa.`,
  },
  overfed: {
    cause: 'Más comida, o más a menudo, de lo que comen estas lombrices con este calor.',
    consequence: 'La comida se calienta, se queda sin aire y trae moscas. Después huele.',
    action: 'No des comida hasta que casi no quede; saca lo que nadie come.',
    from: (v) => [
      `Hay comida para más de ${v.days('foodInHandDays')}.`,
      `O queda más del ${v.percent('leftFrac')} de una comida tras ${v.days('leftAfterDays')}.`,
      `Entonces debe haber comida para ${v.days('leftMattersDays')}.`,
      `Menos de ${v.mass('leastFoodKg')} no cuenta.`,
      `Un lecho a menos de ${v.temp('coolC')} cuenta como si los tuviera.`,
      `Lo que alguien vio sin comer cuenta ${v.days('seenLeftAfterDays')}.`,
    ],
    until: (v) => `Termina con comida para ${v.days('back')}.`,
  },
  hungry: {
    cause: 'Hace tiempo que no hay comida, y casi no queda cama.',
    consequence: 'Las lombrices encogen y no ponen huevos. Algunas se van.',
    action: 'Da un poco de comida, con cama, y luego lo que dice el consejo.',
    from: (v) => [
      `Hay comida para menos de ${v.days('foodInHandDays')}.`,
      `Y la cama baja a ${v.number('beddingNearlyEaten', 1)} veces la marca de «poca cama».`,
    ],
    until: (v) => `Termina con comida para ${v.number('back', 1)} días.`,
  },
  dry: {
    cause: 'El sol, el viento o una tapa fina la secan antes de que la comida la moje.',
    consequence: 'Las lombrices respiran por la piel mojada. Se juntan, no comen y mueren.',
    action: 'Riega con regadera, poco a poco, y cubre con cartón mojado.',
    from: (v) => [`Menos del ${v.percent('moistureFracWb')} del lecho es agua.`],
    until: (v) => `Termina con un ${v.percent('back')} de agua.`,
  },
  wet: {
    cause: 'Comida mojada sin cama seca, mucha agua, o no puede salir.',
    consequence: 'Lo mojado se queda sin aire y huele. Las lombrices suben por las paredes.',
    action: 'Deja que escurra, mezcla cama seca y no des comida mojada.',
    from: (v) => [`Más del ${v.percent('moistureFracWb')} del lecho es agua, o menos del ${v.percent('airFilledPorosity')} es aire.`],
    until: (v) => `Termina con un ${v.percent('back')} de agua.`,
  },
  hot: {
    cause: 'Días de calor, sol en la tapa, o una capa gruesa de comida que se calienta.',
    consequence: 'Las lombrices dejan de comer, huyen del calor y mueren desde unos 35 °C.',
    action: 'Da sombra, abre la tapa, moja lo de encima y no des comida.',
    from: (v) => [`El lecho llega a ${v.temp('bedPeakTempC')} a la hora más cálida del día.`],
    until: (v) => `Termina con ${v.temp('back')}.`,
  },
  cold: {
    cause: 'Hace frío y hay poco abrigo para una compostera de este tamaño.',
    consequence: 'La comida se hiela y luego se pudre toda a la vez. La helada mata lombrices.',
    action: 'Cubre bien, abriga las paredes o llévala dentro, y no des comida.',
    from: (v) => [`El lecho baja de ${v.temp('bedTempC')} de media en un día.`],
    until: (v) => `Termina con ${v.temp('back')}.`,
  },
  sour: {
    cause: 'Mucha fruta, pan o cítricos, o comida que fermenta sin aire.',
    consequence: 'Las lombrices dejan de comer y se van. Por debajo de pH 5 mueren.',
    action: 'Saca lo agrio, mezcla cama y cáscara de huevo molida; nada de fruta.',
    from: (v) => [`El lecho baja de pH ${v.number('ph', 1)}.`],
    until: (v) => `Termina con pH ${v.number('back', 1)}.`,
  },
  ammonia: {
    cause: 'Comida con mucho nitrógeno y poca cama, en un lecho caliente.',
    consequence: 'Hasta un poco de amoniaco en el lecho mata lombrices.',
    action: 'Saca esa comida, mezcla mucha cama seca y deja entrar aire.',
    from: (v) => [
      `Lo que se pudre tiene menos de ${v.number('cnRatio')} partes de carbono por una de nitrógeno.`,
      `Y el lecho pasa de ${v.temp('bedTempC')} y de pH ${v.number('ph')}.`,
    ],
    until: (v) => `Termina con ${v.number('back')} partes de carbono.`,
  },
  'bedding-low': {
    cause: 'Las lombrices también comen cama, y nadie puso más.',
    consequence: 'El lecho se aprieta, guarda mucha agua y le falta aire.',
    action: 'Añade una capa de cartón roto y húmedo, o de hojas.',
    from: (v) => [`Menos del ${v.percent('beddingFracOfSolids')} de lo sólido es cama.`],
    until: (v) => `Termina con un ${v.percent('back')} de cama.`,
  },
  'harvest-due': {
    cause: 'Lo que entra se hace humus, y se queda hasta que alguien lo saca.',
    consequence: 'El humus hondo y viejo se aprieta, y las lombrices no trabajan en él.',
    action: 'Saca humus; deja un tercio y cada grumo con huevos.',
    from: (v) => [
      `El humus llena el ${v.percent('deep')} del fondo.`,
      `O la última cosecha fue hace ${v.number('age')} días, y llena el ${v.percent('worth')}.`,
    ],
    until: (v) => `Termina con un ${v.percent('back')} del fondo.`,
  },
  unseen: {
    cause: 'Nadie ha anotado una revisión en el doble del tiempo normal.',
    consequence: 'Nadie vería un problema, y lo que decimos es cada vez menos seguro.',
    action: 'Mira dentro: lo que queda, apretar un puñado y el olor dicen más.',
    from: (v) => [`Nadie ha mirado en ${v.number('intervals')} veces el tiempo normal de esta compostera.`],
    until: () => 'Termina cuando alguien ha mirado.',
  },
};

const owners: Record<SignalOwner, string> = {
  volunteer: 'quien venga primero',
  'site-lead': 'guía del sitio',
  coordinator: 'coordinación',
};

export const flagWords: ForFlags = {
  title: 'Qué dicen los avisos',
  heading: (n: number) => `Miramos ${n} cosas.`,
  lead: 'Lo que alguien huele, mide o ve cuenta enseguida. Lo demás sale de lo que se anotó.',
  cause: 'Por qué',
  consequence: 'Lleva a',
  action: 'Qué hacer',
  within: 'Para cuándo',
  inDays: (days: string) => `en ${days}`,
  from: 'Se dice desde',
  delay: 'Antes, así durante',
  owner: 'Quién',
  roles: { alert: 'Un aviso en el tablero', duty: 'Una tarea, y un aviso si se atrasa' },
  kindMarks: 'Cada tipo de compostera tiene su marca.',
  never: 'no se mira',
  owners,
  each,
};
