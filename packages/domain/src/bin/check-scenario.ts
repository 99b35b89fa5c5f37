import { isMaterialId, materialFault } from '../materials/material.ts';
import { checkEvents } from './check-events.ts';
import { Checker, type Fault } from './fault.ts';
import { BIN_KINDS, EXPOSURES, HOW_MEASURED, PREPARATIONS, SPECIES } from './scenario.ts';

export type { Fault } from './fault.ts';

export const SCENARIO_LIMITS = {
  days: 3650,
  members: 4096,
  zones: 12,
  areaM2: 1000,
  depthM: 5,
  massKg: 100_000,
  worms: 10_000_000,
  tempC: { min: -60, max: 80 },
  events: 100_000,
  ageDays: 36_500,
} as const;
const LIMITS = SCENARIO_LIMITS;

/**
 * All that is wrong with a value that should be a scenario.
 *
 * @shape anything -> faults
 * @returns Empty when it can be run; otherwise every fault with its JSON path, in the order of the file
 */
export function checkScenario(value: unknown): readonly Fault[] {
  const check = new Checker();
  const scenario = check.object('$', value, ['schema', 'days', 'members', 'seed', 'bin', 'climate', 'events']);
  if (!scenario) return check.faults;
  if (scenario.schema !== 'middenry-scenario/1')
    check.say('$.schema', `must be "middenry-scenario/1": current value is ${JSON.stringify(scenario.schema)}`);
  check.number('$.days', scenario.days, { min: 0, max: LIMITS.days, whole: true });
  check.number('$.members', scenario.members, { min: 1, max: LIMITS.members, whole: true });
  check.number('$.seed', scenario.seed, { min: 0, max: 0xffffffff, whole: true });
  const zones = checkBin(check, scenario.bin);
  checkClimate(check, scenario.climate);
  checkEvents(check, scenario.events, zones);
  return check.faults;
}

function checkBin(check: Checker, value: unknown): number {
  const fields = ['kind', 'areaM2', 'depthM', 'zones', 'openBase', 'ageDays', 'exposure', 'worms', 'bed', 'bedWaterKg'];
  const bin = check.object('$.bin', value, fields);
  if (!bin) return 1;
  check.oneOf('$.bin.kind', bin.kind, BIN_KINDS);
  check.number('$.bin.areaM2', bin.areaM2, { min: 0, max: LIMITS.areaM2, open: true });
  check.number('$.bin.depthM', bin.depthM, { min: 0, max: LIMITS.depthM, open: true });
  check.number('$.bin.zones', bin.zones, { min: 1, max: LIMITS.zones, whole: true });
  if (typeof bin.openBase !== 'boolean')
    check.say('$.bin.openBase', `must be true or false: current value is ${JSON.stringify(bin.openBase) ?? 'nothing'}`);
  check.number('$.bin.ageDays', bin.ageDays, { min: 0, max: LIMITS.ageDays });
  check.optionalOneOf('$.bin.exposure', bin.exposure, EXPOSURES);
  check.number('$.bin.bedWaterKg', bin.bedWaterKg, { min: 0, max: LIMITS.massKg });
  check.list('$.bin.bed', bin.bed, { max: 100 }).forEach((portion, i) => {
    checkPortion(check, `$.bin.bed[${i}]`, portion);
  });
  checkWorms(check, bin.worms);
  return typeof bin.zones === 'number' ? bin.zones : 1;
}

function checkWorms(check: Checker, value: unknown): void {
  const worms = check.object('$.bin.worms', value, ['massKg', 'adults', 'juveniles', 'cocoons', 'meanMassMg', 'species', 'cocoonsRemoved']);
  if (!worms) return;
  check.optionalNumber('$.bin.worms.massKg', worms.massKg, { min: 0, max: LIMITS.massKg });
  for (const name of ['adults', 'juveniles', 'cocoons'] as const)
    check.optionalNumber(`$.bin.worms.${name}`, worms[name], { min: 0, max: LIMITS.worms });
  check.optionalNumber('$.bin.worms.meanMassMg', worms.meanMassMg, { min: 0, max: 20_000, open: true });
  check.optionalOneOf('$.bin.worms.species', worms.species, SPECIES);
  check.optionalFlag('$.bin.worms.cocoonsRemoved', worms.cocoonsRemoved);
  const counted = worms.adults !== undefined || worms.juveniles !== undefined || worms.cocoons !== undefined;
  if (worms.massKg === undefined && !counted) check.say('$.bin.worms', 'must have massKg, or adults, juveniles or cocoons');
  if (worms.massKg !== undefined && counted) check.say('$.bin.worms', 'must say how many by massKg or by count, not both');
}

/** One thing put in: a key of the catalogue or a composition, with its mass. */
export function checkPortion(check: Checker, path: string, value: unknown): void {
  const portion = check.object(path, value, ['material', 'composition', 'massKg', 'how', 'preparation', 'preCompostedDays']);
  if (!portion) return;
  check.number(`${path}.massKg`, portion.massKg, { min: 0, max: LIMITS.massKg });
  check.optionalOneOf(`${path}.how`, portion.how, HOW_MEASURED);
  check.optionalOneOf(`${path}.preparation`, portion.preparation, PREPARATIONS);
  check.optionalNumber(`${path}.preCompostedDays`, portion.preCompostedDays, { min: 0, max: 3650 });
  if ((portion.material === undefined) === (portion.composition === undefined))
    check.say(path, 'must have a material or a composition, one of the two');
  if (portion.material !== undefined) checkMaterial(check, `${path}.material`, portion.material);
  if (portion.composition !== undefined) checkComposition(check, `${path}.composition`, portion.composition);
}

/** A material that may be put into a bin. */
export function checkMaterial(check: Checker, path: string, value: unknown): void {
  if (typeof value !== 'string' || !isMaterialId(value)) {
    check.say(path, `must be a key of the materials table: current value is ${JSON.stringify(value)}`);
    return;
  }
  const fault = materialFault({ material: value });
  if (fault === 'never-fed') check.say(path, `must be something that may be fed: current value is "${value}"`);
  else if (fault) check.say(path, `must have all its figures in the materials table: current value is "${value}" (${fault})`);
}

const FRACTIONS = ['organicFracDb', 'carbonFracDb', 'nitrogenFracDb', 'labileFrac'] as const;

function checkComposition(check: Checker, path: string, value: unknown): void {
  const fields = ['moistureFracWb', ...FRACTIONS, 'labileRatePerDay', 'slowRatePerDay', 'qualityRatio', 'ph'];
  const composition = check.object(path, value, fields);
  if (!composition) return;
  check.number(`${path}.moistureFracWb`, composition.moistureFracWb, { min: 0, max: 1 });
  for (const name of FRACTIONS) check.number(`${path}.${name}`, composition[name], { min: 0, max: 1 });
  check.number(`${path}.labileRatePerDay`, composition.labileRatePerDay, { min: 0, max: 5 });
  check.number(`${path}.slowRatePerDay`, composition.slowRatePerDay, { min: 0, max: 5 });
  check.optionalNumber(`${path}.qualityRatio`, composition.qualityRatio, { min: 0, max: 20 });
  check.optionalNumber(`${path}.ph`, composition.ph, { min: 0, max: 14 });
  const { organicFracDb, carbonFracDb, nitrogenFracDb } = composition;
  if (typeof carbonFracDb === 'number' && typeof organicFracDb === 'number' && carbonFracDb > organicFracDb)
    check.say(`${path}.carbonFracDb`, `must not be above organicFracDb (${organicFracDb}): current value is ${carbonFracDb}`);
  if (typeof nitrogenFracDb === 'number' && typeof organicFracDb === 'number' && nitrogenFracDb > organicFracDb)
    check.say(`${path}.nitrogenFracDb`, `must not be above organicFracDb (${organicFracDb}): current value is ${nitrogenFracDb}`);
}

const TEMPERATURES = ['tempC', 'dailyTempC', 'bedTempC', 'monthly'] as const;

function checkClimate(check: Checker, value: unknown): void {
  const climate = check.object('$.climate', value, [...TEMPERATURES, 'readings', 'moistureFracWb']);
  if (!climate) return;
  const given = TEMPERATURES.filter((name) => climate[name] !== undefined);
  if (given.length !== 1) check.say('$.climate', `must have exactly one of ${TEMPERATURES.join(', ')}: current value has ${given.length}`);
  const temperature = (path: string, each: unknown): void => check.number(path, each, LIMITS.tempC);
  if (climate.tempC !== undefined) temperature('$.climate.tempC', climate.tempC);
  if (climate.bedTempC !== undefined) temperature('$.climate.bedTempC', climate.bedTempC);
  if (climate.dailyTempC !== undefined)
    check.list('$.climate.dailyTempC', climate.dailyTempC, { min: 1, max: LIMITS.days + 1 }).forEach((each, i) => {
      temperature(`$.climate.dailyTempC[${i}]`, each);
    });
  if (climate.monthly !== undefined) checkMonthly(check, climate.monthly);
  check.optionalNumber('$.climate.moistureFracWb', climate.moistureFracWb, { min: 0, max: 0.98 });
  if (climate.readings !== undefined)
    check.list('$.climate.readings', climate.readings, { max: LIMITS.events }).forEach((each, i) => {
      const [day, tempC] = check.list(`$.climate.readings[${i}]`, each, { min: 2, max: 2 });
      check.number(`$.climate.readings[${i}][0]`, day, { min: 0, max: LIMITS.days, whole: true });
      temperature(`$.climate.readings[${i}][1]`, tempC);
    });
}

function checkMonthly(check: Checker, value: unknown): void {
  const monthly = check.object('$.climate.monthly', value, ['minC', 'maxC', 'firstDayOfYear']);
  if (!monthly) return;
  for (const name of ['minC', 'maxC'] as const)
    check.list(`$.climate.monthly.${name}`, monthly[name], { min: 12, max: 12 }).forEach((each, i) => {
      check.number(`$.climate.monthly.${name}[${i}]`, each, LIMITS.tempC);
    });
  check.number('$.climate.monthly.firstDayOfYear', monthly.firstDayOfYear, { min: 1, max: 366, whole: true });
}
