/** Bedding in store at a site: counted or brought, less what bins used since. */
import type { BeddingMove, BeddingMoveNew, BeddingStock } from '@middenry/contract';
import { CATALOGUE, DAYS_PER_WEEK, gramsFromKg, isMaterialId, kgFromGrams, SECONDS_PER_DAY } from '@middenry/domain';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import {
  type BeddingMoveRow,
  type BeddingUseRow,
  beddingMoveById,
  beddingMoves,
  beddingUses,
  insertBeddingMove,
} from '../db/repositories/bedding.ts';
import { plannedBedding } from '../db/repositories/intake.ts';
import { findSite } from '../db/repositories/site.ts';
import { refuse, refuseField } from '../refusal.ts';
import { addDays } from './local-time.ts';
import { materialNames, materialsOf, type OwnMaterials } from './materials.ts';
import { nameFor } from './names.ts';
import { once } from './once.ts';

type MoveView = z.output<typeof BeddingMove>;
type StockView = z.output<typeof BeddingStock>;

/** Bedding that nobody gave a name is what most people shred. */
export const USUAL_BEDDING = 'cardboard_corrugated';
const RECENT_WEEKS = 4;
const MS_PER_WEEK = DAYS_PER_WEEK * SECONDS_PER_DAY * 1000;

export const listBeddingMoves = (call: Context, siteId: string | undefined): MoveView[] => {
  const nameOf = materialNames(call);
  return beddingMoves(call.store, siteId ?? null).map((row) => moveShape(call, row, nameOf));
};

export function moveBedding(call: Signed, body: z.output<typeof BeddingMoveNew>): MoveView {
  const known = materialsOf(call.store);
  const find = () => {
    const row = beddingMoveById(call.store, body.id);
    if (row === null) throw refuse('not-found');
    return moveShape(call, row, materialNames(call));
  };
  const make = () => {
    if (findSite(call.store, body.siteId) === undefined) throw refuse('not-found');
    if (!isBedding(known, body.materialId)) throw refuseField('/materialId', 'is not a bedding');
    if (body.massKg === 0 && body.kind !== 'counted') throw refuseField('/massKg', 'must be more than nothing');
    const { massKg, ...rest } = body;
    const movedAt = call.now.toISOString();
    insertBeddingMove(call.store, { ...rest, grams: gramsFromKg(massKg), personId: call.who.personId, movedAt });
    return find();
  };
  return once(call, 'moveBedding', body, { make, find });
}

export function readBeddingStock(call: Context, siteId: string | undefined): StockView[] {
  const nameOf = materialNames(call);
  const moves = beddingMoves(call.store, siteId ?? null);
  const uses = beddingUses(call.store, siteId ?? null, USUAL_BEDDING);
  const planned = plannedBedding(call.store, addDays(call.today('UTC'), -1));
  const pairs = new Map([...moves, ...uses].map((row) => [`${row.siteId} ${row.materialId}`, row]));
  const items = [...pairs.values()].map(({ siteId: site, materialId }): StockView => {
    const isThis = (row: { readonly siteId: string; readonly materialId: string }) => row.siteId === site && row.materialId === materialId;
    const stock = stockOf(moves.filter(isThis), uses.filter(isThis), call.now);
    const plannedKg = kgFromGrams(planned.find((row) => isThis(row))?.grams ?? 0);
    const runsOutOn = runsOut(call.today(findSite(call.store, site)?.timeZone ?? 'UTC'), stock, plannedKg);
    return { siteId: site, materialId, materialName: nameOf(materialId), ...stock, plannedKg, runsOutOn };
  });
  return items.sort((a, b) => (`${a.siteId} ${a.materialName}` < `${b.siteId} ${b.materialName}` ? -1 : 1));
}

/** As far as a date still means something. */
const FORECAST_DAYS = 730;

/** The day on which what is in store is gone: plans first, then as fast as it went of late. */
export function runsOut(
  today: string,
  stock: { readonly massKg: number; readonly usedPerWeekKg: number },
  plannedKg: number,
): string | null {
  const leftKg = stock.massKg - plannedKg;
  if (leftKg <= 0) return plannedKg > 0 || stock.usedPerWeekKg > 0 ? today : null;
  if (stock.usedPerWeekKg <= 0) return null;
  const days = Math.floor((leftKg / stock.usedPerWeekKg) * DAYS_PER_WEEK);
  return days > FORECAST_DAYS ? null : addDays(today, days);
}

/** Counting settles everything before it; use beyond what was ever there is missing, not negative. */
export function stockOf(moves: readonly BeddingMoveRow[], uses: readonly BeddingUseRow[], now: Date) {
  const counts = moves.filter((move) => move.kind === 'counted');
  const counted = counts.reduce<BeddingMoveRow | null>((last, move) => (last === null || move.movedAt > last.movedAt ? move : last), null);
  const since = counted?.movedAt ?? '';
  const sum = (rows: readonly { readonly grams: number }[]) => rows.reduce((total, row) => total + row.grams, 0);
  const after = moves.filter((move) => move.movedAt > since);
  const broughtG = sum(after.filter((move) => move.kind === 'brought'));
  const thrownG = sum(after.filter((move) => move.kind === 'thrown-away'));
  const leftG = (counted?.grams ?? 0) + broughtG - thrownG - sum(uses.filter((use) => use.usedAt > since));
  const recentFrom = new Date(now.getTime() - RECENT_WEEKS * MS_PER_WEEK).toISOString();
  const recentG = sum(uses.filter((use) => use.usedAt > recentFrom));
  return {
    massKg: kgFromGrams(Math.max(0, leftG)),
    missingKg: kgFromGrams(Math.max(0, -leftG)),
    usedPerWeekKg: kgFromGrams(Math.round(recentG / RECENT_WEEKS)),
    countedAt: counted?.movedAt ?? null,
  };
}

function isBedding(known: OwnMaterials, id: string): boolean {
  return (known.get(id)?.kind ?? (isMaterialId(id) ? CATALOGUE[id].kind : null)) === 'bedding';
}

function moveShape(call: Context, row: BeddingMoveRow, nameOf: (id: string) => string): MoveView {
  const { grams, personId, personName, ...rest } = row;
  const by =
    personId === null || personName === null ? null : { id: personId, name: nameFor(call.who, { id: personId, name: personName }) };
  return { ...rest, massKg: kgFromGrams(grams), materialName: nameOf(row.materialId), by };
}
