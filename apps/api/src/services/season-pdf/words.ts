/** The words of a printed report, by language. */
import type { Season, SeasonPdfLanguage } from '@middenry/contract';

type Destination = Season['destinations'][number]['destination'];
type Problem = Season['problems']['byKind'][number]['problem'];

export interface ReportWords {
  title(from: string, to: string): string;
  published(on: string): string;
  page(n: number, of: number): string;
  readonly summary: (fed: string, estimated: string, castings: string, hours: string, adults: number, young: number | null) => string;
  readonly sections: Readonly<Record<'figures' | 'materials' | 'castings' | 'problems' | 'months' | 'sites' | 'bins' | 'climate', string>>;
  readonly heads: Readonly<Record<Head, string>>;
  readonly rows: Readonly<Record<FigureRow, string>>;
  readonly destinations: Readonly<Record<Destination, string>>;
  readonly problems: Readonly<Record<Problem, string>>;
  readonly all: string;
  readonly none: string;
  readonly few: string;
  readonly noOneBin: string;
  of(part: string, whole: string): string;
  readonly chart: string;
  readonly bars: readonly [string, string, string];
  readonly noNames: string;
  readonly noClimate: string;
  readonly climate: ClimateWords;
  readonly hours: string;
  readonly litres: string;
  readonly gallons: string;
}
export interface ClimateWords {
  counted(scraps: string, low: string, high: string, percent: string): string;
  factors(name: string, edition: string, region: string, basis: string): string;
  perTonne(landfill: string, bins: string): string;
  range(mid: string, low: string, high: string): string;
  source(source: string, on: string): string;
  readonly caution: string;
  readonly gases: string;
  readonly low: string;
  readonly mid: string;
  readonly high: string;
  readonly rows: Readonly<Record<'landfillAvoidedG' | 'processG' | 'differenceG', string>>;
}
type Head =
  | 'what'
  | 'now'
  | 'before'
  | 'weighed'
  | 'estimated'
  | 'bedding'
  | 'castings'
  | 'hours'
  | 'perWeek'
  | 'yield'
  | 'share'
  | 'found'
  | 'solved'
  | 'median'
  | 'longest';
type FigureRow =
  | 'weighed'
  | 'estimated'
  | 'bedding'
  | 'castings'
  | 'corrected'
  | 'volume'
  | 'yield'
  | 'bins'
  | 'shifts'
  | 'places'
  | 'taken'
  | 'came'
  | 'planned'
  | 'given'
  | 'adults'
  | 'young'
  | 'found'
  | 'solved'
  | 'noted';

const en: ReportWords = {
  title: (from, to) => `Season report, ${from} to ${to}`,
  published: (on) => `Published ${on}. Its numbers stay as they were then.`,
  page: (n, of) => `Page ${n} of ${of}`,
  summary: (fed, estimated, castings, hours, adults, young) =>
    `${fed} of scraps fed to the bins, ${estimated} of it estimated. ${castings} of castings harvested. ${hours} given by ${adults === 1 ? 'one adult' : `${adults} adults`}${young === 0 ? '' : ` and ${young ?? 'fewer than 5'} young people`}.`,
  sections: {
    figures: 'In figures',
    materials: 'By material',
    castings: 'Where castings went',
    problems: 'Problems seen at checks',
    months: 'By month',
    sites: 'By site',
    bins: 'By bin',
    climate: 'Climate gases',
  },
  heads: {
    what: 'What',
    now: 'These days',
    before: 'A year before',
    weighed: 'Weighed',
    estimated: 'Estimated',
    bedding: 'Bedding',
    castings: 'Castings',
    hours: 'Hours',
    perWeek: 'Scraps a week',
    yield: 'Castings of all that was fed',
    share: 'Share',
    found: 'Found',
    solved: 'Solved',
    median: 'Days to solve, in the middle',
    longest: 'Days at most',
  },
  rows: {
    weighed: 'Scraps, weighed',
    estimated: 'Scraps, estimated',
    bedding: 'Bedding',
    castings: 'Castings, as weighed',
    corrected: 'Castings at 65 % moisture',
    volume: 'Castings by volume',
    yield: 'Castings of all that was fed',
    bins: 'Bins kept',
    shifts: 'Shifts planned',
    places: 'Places',
    taken: 'Places taken',
    came: 'Places where people came',
    planned: 'Hours planned',
    given: 'Hours given',
    adults: 'Adults who helped',
    young: 'Young people who helped',
    found: 'Problems found',
    solved: 'Problems solved',
    noted: 'Weeks of bins with an entry',
  },
  destinations: {
    plots: 'the plots',
    beds: 'shared beds',
    class: 'the class',
    sale: 'for sale',
    'given-away': 'given away',
    stock: 'into stock',
    curing: 'set aside to cure',
    other: 'elsewhere',
  },
  problems: { smell: 'bad smell', wet: 'too wet', dry: 'too dry', leftover: 'food left over' },
  all: 'All',
  none: 'none',
  few: 'fewer than 5',
  noOneBin: 'Shifts, not one bin',
  of: (part, whole) => `${part} of ${whole}`,
  chart: 'Bars of scraps and castings by month. The table beneath has the same numbers.',
  bars: ['scraps, weighed', 'scraps, estimated', 'castings'],
  noNames: 'No names are in this report.',
  noClimate: 'Climate gases are left out: nobody has confirmed a figure and its source.',
  climate: {
    counted: (scraps, low, high, percent) =>
      `Counted for ${scraps} of scraps (${low} to ${high} as it was measured). ${percent} of it would have gone to a landfill. Bedding never counts.`,
    factors: (name, edition, region, basis) => `By: ${name}. Edition ${edition}. ${region}. ${basis}.`,
    perTonne: (landfill, bins) => `For 1000 kg of scraps: ${landfill} kg in a landfill, ${bins} kg from the bins.`,
    range: (mid, low, high) => `${mid} (${low} to ${high})`,
    source: (source, on) => `Source: ${source}. Looked up and confirmed ${on}.`,
    caution:
      'Told in two digits, as nobody knows it better. A landfill gives off its gas over many years. Such factors are made for yearly accounts.',
    gases: 'CO2e',
    low: 'At least',
    mid: 'In the middle',
    high: 'At most',
    rows: {
      landfillAvoidedG: 'Landfill gases avoided',
      processG: 'Given off by the bins',
      differenceG: 'The first less the second',
    },
  },
  hours: 'h',
  litres: 'litres',
  gallons: 'US gallons',
};

const es: ReportWords = {
  title: (from, to) => `Balance de la temporada, del ${from} al ${to}`,
  published: (on) => `Publicado el ${on}. Sus cifras quedan como eran entonces.`,
  page: (n, of) => `Página ${n} de ${of}`,
  summary: (fed, estimated, castings, hours, adults, young) =>
    `${fed} de restos para las composteras, ${estimated} estimados. ${castings} de humus cosechado. ${hours} de ${adults === 1 ? 'una persona adulta' : `${adults} personas adultas`}${young === 0 ? '' : ` y ${young ?? 'menos de 5'} menores`}.`,
  sections: {
    figures: 'En cifras',
    materials: 'Por material',
    castings: 'Adónde fue el humus',
    problems: 'Problemas vistos al revisar',
    months: 'Por mes',
    sites: 'Por lugar',
    bins: 'Por compostera',
    climate: 'Gases del clima',
  },
  heads: {
    what: 'Qué',
    now: 'Estos días',
    before: 'Un año antes',
    weighed: 'Pesado',
    estimated: 'Estimado',
    bedding: 'Cama',
    castings: 'Humus',
    hours: 'Horas',
    perWeek: 'Restos por semana',
    yield: 'Humus de todo lo que se dio',
    share: 'Parte',
    found: 'Vistos',
    solved: 'Resueltos',
    median: 'Días para resolver, el del medio',
    longest: 'Días como mucho',
  },
  rows: {
    weighed: 'Restos pesados',
    estimated: 'Restos estimados',
    bedding: 'Cama',
    castings: 'Humus, como se pesó',
    corrected: 'Humus con 65 % de humedad',
    volume: 'Humus por volumen',
    yield: 'Humus de todo lo que se dio',
    bins: 'Composteras cuidadas',
    shifts: 'Turnos previstos',
    places: 'Plazas',
    taken: 'Plazas ocupadas',
    came: 'Plazas con gente que vino',
    planned: 'Horas previstas',
    given: 'Horas dadas',
    adults: 'Personas adultas que ayudaron',
    young: 'Menores que ayudaron',
    found: 'Problemas vistos',
    solved: 'Problemas resueltos',
    noted: 'Semanas de composteras con apuntes',
  },
  destinations: {
    plots: 'los huertos',
    beds: 'bancales comunes',
    class: 'la clase',
    sale: 'a la venta',
    'given-away': 'se regala',
    stock: 'se guarda',
    curing: 'aparte, a madurar',
    other: 'a otro lugar',
  },
  problems: { smell: 'mal olor', wet: 'demasiado mojada', dry: 'demasiado seca', leftover: 'comida sin comer' },
  all: 'Todo',
  none: 'ninguno',
  few: 'menos de 5',
  noOneBin: 'Turnos, de ninguna compostera',
  of: (part, whole) => `${part} de ${whole}`,
  chart: 'Barras de restos y humus por mes. La tabla de abajo tiene las mismas cifras.',
  bars: ['restos pesados', 'restos estimados', 'humus'],
  noNames: 'En este balance no hay nombres.',
  noClimate: 'Los gases del clima no se cuentan: nadie ha confirmado una cifra y su fuente.',
  climate: {
    counted: (scraps, low, high, percent) =>
      `Contado para ${scraps} de restos (de ${low} a ${high}, según se midieron). El ${percent} habría ido a un vertedero. La cama nunca cuenta.`,
    factors: (name, edition, region, basis) => `Según: ${name}. Edición ${edition}. ${region}. ${basis}.`,
    perTonne: (landfill, bins) => `Por 1000 kg de restos: ${landfill} kg en un vertedero, ${bins} kg de las composteras.`,
    range: (mid, low, high) => `${mid} (de ${low} a ${high})`,
    source: (source, on) => `Fuente: ${source}. Consultada y confirmada el ${on}.`,
    caution:
      'Dicho con dos cifras, pues nadie lo sabe mejor. Un vertedero suelta su gas durante muchos años. Estos factores se hacen para cuentas anuales.',
    gases: 'CO2e',
    low: 'Como poco',
    mid: 'En el medio',
    high: 'Como mucho',
    rows: {
      landfillAvoidedG: 'Gases de vertedero evitados',
      processG: 'Soltados por las composteras',
      differenceG: 'Lo primero menos lo segundo',
    },
  },
  hours: 'h',
  litres: 'litros',
  gallons: 'galones de EE. UU.',
};

export const REPORT_WORDS: Readonly<Record<SeasonPdfLanguage, ReportWords>> = { en, es };
