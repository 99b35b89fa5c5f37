/** Plans for scraps on offer: made once and kept as they were, accepted onto the card of a shift. */
import type { IntakePlanNew, IntakePlanShape, Shift } from '@middenry/contract';
import { gramsFromKg, type IntakePlan, kgFromGrams, planIntake } from '@middenry/domain';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { containersOf } from '../db/repositories/container.ts';
import {
  acceptIntakePlan,
  addShiftFeeding,
  type IntakePlanRow,
  insertIntakePlan,
  intakePlanById,
  intakePlans,
  type StreamRow,
  streamsOf,
} from '../db/repositories/intake.ts';
import { dutiesOfShifts, type ShiftRow, setShiftBins, setShiftDuties, shiftsBetween, updateShift } from '../db/repositories/shift.ts';
import { refuse, refuseField } from '../refusal.ts';
import { readBeddingStock } from './bedding.ts';
import { type BinScene, binScenes, intakeAsk, troubleOfPlan, zonesOf } from './intake-ask.ts';
import { addDays, startOf } from './local-time.ts';
import { checkMaterial, materialNames, materialsOf } from './materials.ts';
import { once } from './once.ts';
import { warmOutlooks } from './outlook-cache.ts';
import { containersFor } from './shift-card.ts';
import { endOf, leadsSite } from './shift-shape.ts';
import { readShift, shiftOrRefuse } from './shifts.ts';
import { siteOf } from './sites.ts';

type Body = z.output<typeof IntakePlanNew>;
/** What is kept of a plan, beside what was offered. */
interface KeptPlan extends IntakePlan {
  readonly bins: readonly { readonly id: string; readonly code: string; readonly adviceKg: number; readonly zones: readonly number[] }[];
  /** Codes of bins that could not be looked at in time; plans made before that was possible have none. */
  readonly unlooked?: readonly string[];
}
/** As far as bins are forecast. */
const AHEAD_DAYS = 13;
/** Of the 30 s that the answer may take, bins are looked at so long, */
const LOOKED_MS = 10_000;
/** and feedings tried out until then; what is left of both is said. */
const TRIED_MS = 18_000;

export function listIntakePlans(call: Context, siteId: string | undefined): IntakePlanShape[] {
  return intakePlans(call.store, siteId ?? null)
    .filter((row) => leadsSite(call.who, row.siteId))
    .map((row) => planShape(call, row));
}

/** Worked out before the transaction, since bins are forecast and a programme is solved; sent twice it is worked out once. */
export async function addIntakePlan(call: Signed, body: Body): Promise<IntakePlanShape> {
  const { store, who, now } = call;
  const find = () => planShape(call, planOrRefuse(call, body.id));
  const kept = intakePlanById(store, body.id) === null ? await workOut(call, body) : null;
  const make = () => {
    if (kept === null) throw refuse('same-id-other-content');
    const streams = body.streams.map(({ massKg, ...stream }): StreamRow => ({ ...stream, grams: gramsFromKg(massKg) }));
    const row = { id: body.id, siteId: body.siteId, localDate: body.on, madeBy: who.personId, madeAt: now.toISOString() };
    insertIntakePlan(store, { ...row, plan: JSON.stringify(kept) }, streams);
    return find();
  };
  return once(call, 'planIntake', body, { make, find });
}

async function workOut(call: Signed, { siteId, on, streams }: Body): Promise<KeptPlan> {
  const site = siteOf(call.store, siteId);
  const today = call.today(site.timeZone);
  if (on < today || on > addDays(today, AHEAD_DAYS)) throw refuseField('/on', `must be within ${AHEAD_DAYS} days from today`);
  const own = materialsOf(call.store);
  streams.forEach(({ materialId }, at) => {
    checkMaterial(own, materialId, `/streams/${at}/materialId`);
  });
  const began = performance.now();
  const { bins, unlooked } = await binScenes(call, siteId, began + LOOKED_MS);
  const scene = { bins, own };
  const trouble = troubleOfPlan(call, streams, scene, { on, untilMs: began + TRIED_MS });
  const plan = await planIntake(intakeAsk(call, siteId, streams, scene), call.solver.solve, trouble);
  // The next plan will know them; what fails here fails again, and is told, when somebody asks for it.
  if (unlooked.length > 0) warmOutlooks(call).catch(() => undefined);
  return { ...plan, bins: bins.map(keptBin), unlooked: unlooked.map(({ code }) => code) };
}

const keptBin = ({ bin, outlook }: BinScene): KeptPlan['bins'][number] => ({
  id: bin.id,
  code: bin.code,
  adviceKg: outlook.advice.massKg,
  zones: zonesOf(outlook),
});

function planOrRefuse(call: Context, id: string): IntakePlanRow {
  const row = intakePlanById(call.store, id);
  if (row === null) throw refuse('not-found');
  return row;
}

function planShape(call: Context, row: IntakePlanRow): IntakePlanShape {
  const kept = JSON.parse(row.plan) as KeptPlan;
  const nameOf = materialNames(call);
  const streams = streamsOf(call.store, row.id).map(({ source, materialId, grams }) => ({
    ...{ source, materialId, name: nameOf(materialId), massKg: kgFromGrams(grams) },
  }));
  const containers = containersOf(call.store, row.siteId).filter(({ archived }) => archived === 0);
  const streamPart = ({ id, massKg }: { id: string; massKg: number }) => ({ ...streams[Number(id)]!, massKg: toGram(massKg) });
  const beddingPart = ({ id, massKg }: { id: string; massKg: number }) => ({
    ...{ materialId: id, name: nameOf(id), massKg: toGram(massKg) },
  });
  const fed = kept.feedings.filter(({ scraps }) => scraps.length > 0);
  return {
    ...{ id: row.id, siteId: row.siteId, siteName: row.siteName, on: row.localDate, madeAt: row.madeAt },
    by: row.madeBy === null || row.madeByName === null ? null : { id: row.madeBy, name: row.madeByName },
    ...{ acceptedAt: row.acceptedAt, shiftId: row.shiftId, streams },
    suggestedShiftId: row.shiftId ?? suggestedShift(call, row)?.id ?? null,
    feedings: fed.map(({ binId, scraps, bedding, fillFrac, troubleProbability }) => {
      const { code, adviceKg, zones } = kept.bins.find(({ id }) => id === binId)!;
      const massKg = kgFromGrams(scraps.reduce((sum, part) => sum + gramsFromKg(part.massKg), 0));
      return {
        ...{ binId, binCode: code, massKg, adviceKg, fillFrac, troubleProbability, zones: [...zones] },
        scraps: scraps.map(streamPart),
        bedding: bedding.map(beddingPart),
        containers: containersFor(containers, massKg),
      };
    }),
    leftOver: kept.leftOver.map(({ streamId, massKg, forBeddingKg, forRoomKg }) => ({
      ...streamPart({ id: streamId, massKg }),
      ...{ forBeddingKg: toGram(forBeddingKg), forRoomKg: toGram(forRoomKg) },
    })),
    bedding: beddingOfAll(call, row, fed).map((part) => ({ ...beddingPart(part), inStoreKg: part.inStoreKg })),
    beddingMissing: kept.beddingMissing.map(beddingPart),
    unlooked: [...(kept.unlooked ?? [])],
  };
}

const toGram = (massKg: number): number => kgFromGrams(gramsFromKg(massKg));
const sumKg = (parts: readonly { readonly massKg: number }[]): number => parts.reduce((sum, { massKg }) => sum + massKg, 0);

function beddingOfAll(call: Context, row: IntakePlanRow, fed: IntakePlan['feedings']) {
  const stock = readBeddingStock(call, row.siteId);
  const parts = fed.flatMap(({ bedding }) => bedding);
  const ids = [...new Set(parts.map(({ id }) => id))];
  return ids.map((id) => ({
    ...{ id, massKg: sumKg(parts.filter((part) => part.id === id)) },
    inStoreKg: stock.find(({ materialId }) => materialId === id)?.massKg ?? 0,
  }));
}

/** The soonest shift from the day of the scraps on; scraps keep for a few days at the most. */
function suggestedShift(call: Context, row: IntakePlanRow): ShiftRow | undefined {
  const range = { from: row.localDate, to: addDays(row.localDate, KEEPS_DAYS), siteId: row.siteId, personId: null };
  return shiftsBetween(call.store, range).find((shift) => shift.cancelledAt === null && startOf(shift).startsAt > call.now);
}
const KEEPS_DAYS = 3;

/** Its bins come onto the shift to be fed, with the plan's amounts on their cards. */
export function acceptIntake(
  call: Signed,
  planId: string,
  body: { id: string; shiftId: string },
  ownSite: (siteId: string) => void,
): { plan: IntakePlanShape; shift: Shift } {
  ownSite(planOrRefuse(call, planId).siteId);
  const find = () => ({ plan: planShape(call, planOrRefuse(call, planId)), shift: readShift(call, body.shiftId) });
  const make = () => {
    const row = planOrRefuse(call, planId);
    const shift = shiftOrRefuse(call, body.shiftId);
    if (shift.siteId !== row.siteId) throw refuse('not-found');
    if (shift.cancelledAt !== null) throw refuse('shift-cancelled');
    if (endOf(shift) <= call.now.getTime()) throw refuse('shift-over');
    if (shift.localDate < row.localDate) throw refuseField('/shiftId', 'is before the scraps come');
    if (!acceptIntakePlan(call.store, { id: planId, shiftId: shift.id, at: call.now.toISOString() })) throw refuse('plan-accepted');
    putOnShift(call, shift, row);
    call.audit('intake.accepted', planId, { shiftId: shift.id });
    return find();
  };
  return once(call, 'acceptIntake', { ...body, planId }, { make, find });
}

function putOnShift(call: Signed, shift: ShiftRow, row: IntakePlanRow): void {
  const { store } = call;
  const { feedings } = JSON.parse(row.plan) as KeptPlan;
  const streams = streamsOf(store, row.id);
  const fed = feedings.filter(({ scraps }) => scraps.length > 0);
  const before = dutiesOfShifts(store, [shift.id]);
  const clash = fed.find(({ binId }) => before.some((duty) => duty.binId === binId && duty.kind === 'harvest'));
  if (clash !== undefined) throw refuseField('/shiftId', 'harvests a bin that this plan would feed');
  const put = (binId: string, part: 'scraps' | 'bedding', materialId: string, massKg: number) => {
    const grams = gramsFromKg(massKg);
    if (grams > 0) addShiftFeeding(store, { shiftId: shift.id, binId, part, materialId, grams, planId: row.id });
  };
  for (const { binId, scraps, bedding } of fed) {
    for (const { id, massKg } of scraps) put(binId, 'scraps', streams[Number(id)]!.materialId, massKg);
    for (const { id, massKg } of bedding) put(binId, 'bedding', id, massKg);
  }
  const duties = [...before, ...fed.map(({ binId }) => ({ binId, kind: 'feed' as const }))];
  setShiftBins(
    store,
    shift.id,
    duties.map(({ binId }) => binId),
  );
  setShiftDuties(store, shift.id, duties);
  updateShift(store, shift);
}
