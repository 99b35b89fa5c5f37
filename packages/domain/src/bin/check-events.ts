import { checkMaterial, checkPortion, SCENARIO_LIMITS as LIMITS } from './check-scenario.ts';
import type { Checker } from './fault.ts';
import { type BinEvent, EXPOSURES, HOW_MEASURED, LEFTOVERS, SMELLS, SQUEEZES, VISITORS, WORM_SIGHTINGS } from './scenario.ts';

type Fields = Readonly<Record<string, unknown>>;
type EventType = BinEvent['type'];

/** The fields of each type beside day, type and entryId. */
const FIELDS_OF: Readonly<Record<EventType, readonly string[]>> = {
  feeding: ['zone', 'items', 'beddingKg', 'beddingMaterial', 'waterKg'],
  bedding: ['items', 'zone', 'mixedIn'],
  check: ['leftover', 'squeeze', 'smell', 'tempC', 'worms', 'ph', 'levelM', 'visitors'],
  loosen: ['zone'],
  water: ['massKg'],
  drain: ['massKg'],
  inoculate: ['massKg'],
  cover: ['depthM', 'zone'],
  move: ['exposure'],
  harvest: ['massKg', 'how'],
  'add-worms': ['massKg'],
  remove: ['cocoonsFrac', 'wormsFrac', 'foodFrac', 'zone'],
};
export const EVENT_TYPES = Object.keys(FIELDS_OF) as readonly EventType[];
const MASS_NEEDED: readonly string[] = ['water', 'harvest', 'add-worms'];

export function checkEvents(check: Checker, value: unknown, zones: number): void {
  check.list('$.events', value, { max: LIMITS.events }).forEach((event, i) => {
    checkEvent(check, `$.events[${i}]`, event, zones);
  });
}

function checkEvent(check: Checker, path: string, value: unknown, zones: number): void {
  const type = (value as Fields | null)?.type;
  const known = typeof type === 'string' && (EVENT_TYPES as readonly string[]).includes(type);
  if (typeof value === 'object' && value !== null && !Array.isArray(value) && !known) {
    check.oneOf(`${path}.type`, type, EVENT_TYPES);
    return;
  }
  const event = check.object(path, value, known ? ['day', 'type', 'entryId', ...FIELDS_OF[type as EventType]] : []);
  if (!event) return;
  check.number(`${path}.day`, event.day, { min: 0, max: LIMITS.days, whole: true });
  if (event.entryId !== undefined && typeof event.entryId !== 'string') check.say(`${path}.entryId`, 'must be a text');
  if (event.zone !== undefined || type === 'feeding') check.number(`${path}.zone`, event.zone, { min: 1, max: zones, whole: true });
  if (event.massKg !== undefined || MASS_NEEDED.includes(type as string))
    check.number(`${path}.massKg`, event.massKg, { min: 0, max: LIMITS.massKg });
  if (type === 'feeding' || type === 'bedding')
    check.list(`${path}.items`, event.items, { min: 1, max: 100 }).forEach((item, i) => {
      checkPortion(check, `${path}.items[${i}]`, item);
    });
  if (type === 'feeding') checkFeeding(check, path, event);
  if (type === 'check') checkCheck(check, path, event, zones);
  check.optionalFlag(`${path}.mixedIn`, event.mixedIn);
  check.optionalNumber(`${path}.depthM`, event.depthM, { min: 0, max: LIMITS.depthM });
  check.optionalOneOf(`${path}.exposure`, event.exposure, EXPOSURES);
  check.optionalOneOf(`${path}.how`, event.how, HOW_MEASURED);
  for (const name of ['cocoonsFrac', 'wormsFrac', 'foodFrac'] as const)
    check.optionalNumber(`${path}.${name}`, event[name], { min: 0, max: 1 });
}

function checkFeeding(check: Checker, path: string, event: Fields): void {
  check.optionalNumber(`${path}.beddingKg`, event.beddingKg, { min: 0, max: LIMITS.massKg });
  check.optionalNumber(`${path}.waterKg`, event.waterKg, { min: 0, max: LIMITS.massKg });
  if (event.beddingMaterial !== undefined) checkMaterial(check, `${path}.beddingMaterial`, event.beddingMaterial);
}

function checkCheck(check: Checker, path: string, event: Fields, zones: number): void {
  if (event.leftover !== undefined) {
    const leftover = check.object(
      `${path}.leftover`,
      event.leftover,
      Array.from({ length: zones }, (_, i) => String(i + 1)),
    );
    for (const [zone, left] of Object.entries(leftover ?? {})) check.oneOf(`${path}.leftover.${zone}`, left, LEFTOVERS);
  }
  check.optionalOneOf(`${path}.squeeze`, event.squeeze, SQUEEZES);
  check.optionalOneOf(`${path}.smell`, event.smell, SMELLS);
  check.optionalOneOf(`${path}.worms`, event.worms, WORM_SIGHTINGS);
  check.optionalNumber(`${path}.tempC`, event.tempC, LIMITS.tempC);
  check.optionalNumber(`${path}.ph`, event.ph, { min: 0, max: 14 });
  check.optionalNumber(`${path}.levelM`, event.levelM, { min: 0, max: LIMITS.depthM });
  if (event.visitors === undefined) return;
  check.list(`${path}.visitors`, event.visitors, { max: VISITORS.length }).forEach((visitor, i) => {
    check.oneOf(`${path}.visitors[${i}]`, visitor, VISITORS);
  });
}
