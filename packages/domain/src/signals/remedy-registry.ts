import { type Parameter, parameter } from '../bin/parameter.ts';
import type { BinEvent, BinSetup } from '../bin/scenario.ts';
import { type MixFacts, massForMoisture } from '../materials/blend.ts';
import { materialOf } from '../materials/material.ts';
import type { BinDay, ZoneDay } from './member-day.ts';
import type { CautionId, RemedyId } from './types.ts';

/** What a remedy is worked out from. */
export interface RemedyScene {
  readonly today: number;
  readonly setup: BinSetup;
  readonly bin: BinDay;
  /** All solids of the bin [kg dry]. */
  readonly solidsKgDb: number;
  /** The zone at fault, or null when it is the whole bed. */
  readonly zone: number | null;
  /** Feedings planned ahead. */
  readonly planned: readonly BinEvent[];
  /** What a feeding of now would be, in zones. */
  readonly ration: { readonly massKg: number; readonly beddingKg: number; readonly zones: readonly number[] };
}

/** What the remedy does to the days ahead; `events` happen tomorrow morning. */
export interface RemedyPlan {
  readonly zone: number | null;
  readonly massKg: number | null;
  readonly events: readonly BinEvent[];
  readonly planned: readonly BinEvent[];
}

export interface RemedyDefinition {
  readonly id: RemedyId;
  readonly effortMinutes: Parameter;
  readonly cautions: readonly CautionId[];
  /** Null where it makes no sense in this bin. */
  readonly plan: (scene: RemedyScene) => RemedyPlan | null;
}

export const REMEDY_PARAMETERS = {
  heldDays: parameter(7, 'd', 'estimate', 'common-practice'),
  halfFrac: parameter(0.5, 'share', 'common practice', 'common-practice'),
  takenOutFrac: parameter(0.7, 'share of the food', 'estimate', 'common-practice'),
  mixMoistureFracWb: parameter(0.75, 'wet basis', 'estimate', 'science-table-4'),
  bedMixFrac: parameter(0.1, 'share of solids', 'estimate', 'common-practice'),
  waterMoistureFracWb: parameter(0.72, 'wet basis', 'estimate', 'science-table-4'),
  beddingFrac: parameter(0.25, 'share of solids', 'estimate', 'science-table-10'),
  harvestFrac: parameter(0.6, 'share of castings', 'estimate', 'science-table-10'),
  coverM: parameter(0.1, 'm', 'estimate', 'common-practice'),
  inoculantKgPerM2: parameter(2, 'kg/m2', 'estimate', 'common-practice'),
  eggshellKgPerM2: parameter(0.5, 'kg/m2', 'estimate', 'common-practice'),
  leastKg: parameter(0.1, 'kg', 'estimate', 'common-practice'),
} as const;
const P = REMEDY_PARAMETERS;

const minutes = (value: number): Parameter => parameter(value, 'min', 'estimate', 'common-practice');
const CARD = 'cardboard_corrugated';
const tenth = (massKg: number): number => Math.max(P.leastKg.value, Math.round(massKg * 10) / 10);

const act = (scene: RemedyScene, event: BinEvent, massKg: number | null = null, zone = scene.zone): RemedyPlan => ({
  zone,
  massKg,
  events: [event],
  planned: scene.planned,
});
const tomorrow = ({ today }: RemedyScene): number => today + 1;
const zoneOf = ({ bin, zone }: RemedyScene): ZoneDay | undefined => bin.zones.find((each) => each.zone === zone);
const inZone = (zone: number | null): { zone?: number } => (zone === null ? {} : { zone });

/** Feedings planned for the coming week, taken out or made smaller; null when none is planned. */
function changedPlan(scene: RemedyScene, keepFrac: number): RemedyPlan | null {
  const near = (event: BinEvent): boolean => event.type === 'feeding' && event.day <= scene.today + P.heldDays.value;
  if (!scene.planned.some(near)) return null;
  const planned = scene.planned.flatMap((event): readonly BinEvent[] => {
    if (event.type !== 'feeding' || !near(event)) return [event];
    if (keepFrac === 0) return [];
    const bedding = event.beddingKg === undefined ? {} : { beddingKg: event.beddingKg * keepFrac };
    return [{ ...event, ...bedding, items: event.items.map((item) => ({ ...item, massKg: item.massKg * keepFrac })) }];
  });
  return { zone: null, massKg: null, events: [], planned };
}

/** Card that dries the food of the zone to a good moisture, or a tenth of the bed's solids when it is the bed. */
function mixIn(scene: RemedyScene): RemedyPlan {
  const zone = zoneOf(scene);
  const card: MixFacts = materialOf({ material: CARD });
  const wet = zone && { massKg: zone.foodLeftKgWb, facts: { moistureFracWb: zone.moistureFracWb, carbonFracDb: 0, nitrogenFracDb: 0 } };
  const forZone = wet && massForMoisture([wet], card, P.mixMoistureFracWb.value);
  const massKg = tenth(forZone?.status === 'ok' ? (forZone.massesKg[0] ?? 0) : scene.solidsKgDb * P.bedMixFrac.value);
  const items = [{ material: CARD, massKg, how: 'weighed' as const }];
  return act(scene, { day: tomorrow(scene), type: 'bedding', items, mixedIn: true, ...inZone(scene.zone) }, massKg);
}

function addBedding(scene: RemedyScene): RemedyPlan {
  const missing = Math.max(0, P.beddingFrac.value - scene.bin.beddingFracOfSolids);
  const dryKg = (scene.solidsKgDb * missing) / (1 - P.beddingFrac.value);
  const massKg = tenth(dryKg / (1 - materialOf({ material: CARD }).moistureFracWb));
  return act(scene, { day: tomorrow(scene), type: 'bedding', items: [{ material: CARD, massKg, how: 'weighed' }] }, massKg, null);
}

function addWater(scene: RemedyScene): RemedyPlan | null {
  const waterPerDry = (frac: number): number => frac / (1 - frac);
  const missing = waterPerDry(P.waterMoistureFracWb.value) - waterPerDry(Math.min(0.99, scene.bin.moistureFracWb));
  if (missing <= 0) return null;
  const massKg = tenth(missing * scene.solidsKgDb);
  return act(scene, { day: tomorrow(scene), type: 'water', massKg }, massKg, null);
}

function feedNow(scene: RemedyScene): RemedyPlan | null {
  const { massKg, beddingKg, zones } = scene.ration;
  if (massKg <= 0 || zones.length === 0) return null;
  const events = zones.map(
    (zone): BinEvent => ({
      day: tomorrow(scene),
      type: 'feeding',
      zone,
      items: [{ material: 'food_scraps_veg', massKg: massKg / zones.length, how: 'weighed' }],
      beddingKg: beddingKg / zones.length,
      beddingMaterial: CARD,
    }),
  );
  return { zone: zones[0] ?? null, massKg, events, planned: scene.planned };
}

function takeOut(scene: RemedyScene): RemedyPlan | null {
  const zones = scene.zone === null ? scene.bin.zones : scene.bin.zones.filter((zone) => zone.zone === scene.zone);
  const massKg = zones.reduce((sum, zone) => sum + zone.foodLeftKgWb, 0) * P.takenOutFrac.value;
  if (massKg < P.leastKg.value) return null;
  return act(scene, { day: tomorrow(scene), type: 'remove', foodFrac: P.takenOutFrac.value, ...inZone(scene.zone) }, tenth(massKg));
}

function harvest(scene: RemedyScene): RemedyPlan | null {
  const massKg = tenth(scene.bin.castingsKgWb * P.harvestFrac.value);
  return scene.bin.castingsKgWb < P.leastKg.value ? null : act(scene, { day: tomorrow(scene), type: 'harvest', massKg }, massKg, null);
}

const sunny = ({ setup }: RemedyScene): boolean => setup.exposure === 'full-sun' || setup.exposure === 'part-sun';

/** Every remedy that a signal may name. */
export const REMEDIES: Readonly<Record<RemedyId, RemedyDefinition>> = {
  'hold-next-feed': { id: 'hold-next-feed', effortMinutes: minutes(0), cautions: [], plan: (scene) => changedPlan(scene, 0) },
  'feed-half': { id: 'feed-half', effortMinutes: minutes(0), cautions: [], plan: (scene) => changedPlan(scene, P.halfFrac.value) },
  'feed-now': { id: 'feed-now', effortMinutes: minutes(10), cautions: ['gloves'], plan: feedNow },
  'take-out-uneaten': { id: 'take-out-uneaten', effortMinutes: minutes(15), cautions: ['gloves', 'lifting'], plan: takeOut },
  loosen: {
    id: 'loosen',
    effortMinutes: minutes(5),
    cautions: ['gloves', 'damp-not-dusty'],
    plan: (scene) => act(scene, { day: tomorrow(scene), type: 'loosen', ...inZone(scene.zone) }),
  },
  'mix-in-bedding': { id: 'mix-in-bedding', effortMinutes: minutes(10), cautions: ['gloves', 'damp-not-dusty'], plan: mixIn },
  'add-bedding': { id: 'add-bedding', effortMinutes: minutes(10), cautions: ['damp-not-dusty'], plan: addBedding },
  'add-water': { id: 'add-water', effortMinutes: minutes(5), cautions: ['flooding'], plan: addWater },
  drain: {
    id: 'drain',
    effortMinutes: minutes(5),
    cautions: ['gloves', 'leachate'],
    plan: (scene) => act(scene, { day: tomorrow(scene), type: 'drain' }, null, null),
  },
  shade: {
    id: 'shade',
    effortMinutes: minutes(10),
    cautions: ['lifting'],
    plan: (scene) => (sunny(scene) ? act(scene, { day: tomorrow(scene), type: 'move', exposure: 'shade' }, null, null) : null),
  },
  insulate: {
    id: 'insulate',
    effortMinutes: minutes(15),
    cautions: ['heating'],
    plan: (scene) => act(scene, { day: tomorrow(scene), type: 'cover', depthM: P.coverM.value }, null, null),
  },
  harvest: {
    id: 'harvest',
    effortMinutes: minutes(45),
    cautions: ['gloves', 'damp-not-dusty', 'lifting', 'castings-on-food'],
    plan: harvest,
  },
  inoculate: {
    id: 'inoculate',
    effortMinutes: minutes(5),
    cautions: ['gloves', 'damp-not-dusty'],
    plan: (scene) => {
      const massKg = tenth(P.inoculantKgPerM2.value * scene.setup.areaM2);
      return act(scene, { day: tomorrow(scene), type: 'inoculate', massKg }, massKg, null);
    },
  },
  'ground-eggshell': {
    id: 'ground-eggshell',
    effortMinutes: minutes(5),
    cautions: ['lime'],
    plan: (scene) => {
      const massKg = tenth(P.eggshellKgPerM2.value * scene.setup.areaM2);
      return act(
        scene,
        { day: tomorrow(scene), type: 'bedding', items: [{ material: 'eggshell', massKg, how: 'weighed' }], mixedIn: true },
        massKg,
        null,
      );
    },
  },
  check: {
    id: 'check',
    effortMinutes: minutes(3),
    cautions: ['gloves'],
    plan: (scene) => act(scene, { day: tomorrow(scene), type: 'check' }, null, null),
  },
};
