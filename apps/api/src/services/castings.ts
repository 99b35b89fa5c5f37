/** Castings in store by site: what came in and went out, and never less than nothing on any day. */
import type { CastingsMove, CastingsMoveNew, CastingsStock } from '@middenry/contract';
import { type CastingsFlow, castingsShort, castingsStock, gramsFromKg, kgFromGrams } from '@middenry/domain';
import type * as z from 'zod';
import type { Context, Signed, Who } from '../context.ts';
import {
  type CastingsMoveRow,
  castingsMoveById,
  castingsMoves,
  eraseMoveReceiver,
  harvestSite,
  insertCastingsMove,
  movedCastings,
  type StoredHarvestRow,
  storedHarvests,
  undoMove,
} from '../db/repositories/castings.ts';
import { findSite, listSites } from '../db/repositories/site.ts';
import { write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { nameFor } from './names.ts';
import { once } from './once.ts';

type StockView = z.output<typeof CastingsStock>;

const flowOf = ({ localDate, readyOn, grams }: StoredHarvestRow): CastingsFlow => ({ on: readyOn ?? localDate, grams });

/** Every site that has, had or may have castings in store, in the order of their names. */
export function readCastingsStock(call: Context, siteId: string | undefined): StockView[] {
  const harvests = storedHarvests(call.store, siteId ?? null);
  const moves = movedCastings(call.store, siteId ?? null);
  const sites = listSites(call.store).filter((site) => siteId === undefined || site.id === siteId);
  const isThere = (site: { readonly id: string; readonly archived: boolean }) =>
    !site.archived || [...harvests, ...moves].some((row) => row.siteId === site.id);
  return sites.filter(isThere).map(({ id, name, timeZone }): StockView => {
    const today = call.today(timeZone);
    const own = harvests.filter((row) => row.siteId === id);
    const { readyG, curingG } = castingsStock([...own.map(flowOf), ...moves.filter((row) => row.siteId === id)], today);
    const curing = own.flatMap(({ entryId, binId, binCode, grams, localDate, readyOn }) =>
      readyOn === null || readyOn <= today
        ? []
        : [{ entryId, binId, binCode, massKg: kgFromGrams(grams), harvestedOn: localDate, readyOn }],
    );
    return { siteId: id, siteName: name, readyKg: kgFromGrams(readyG), curingKg: kgFromGrams(curingG), curing };
  });
}

/**
 * Call it inside the write that changed what is in a site's store.
 *
 * @throws {Refusal} castings-short, when more would have gone out than was ready on some day
 */
export function checkStore(call: Context, siteId: string): void {
  const short = castingsShort([...storedHarvests(call.store, siteId).map(flowOf), ...movedCastings(call.store, siteId)]);
  if (short === null) return;
  const { on, shortG } = short;
  throw refuse('castings-short', {
    help: { siteId, siteName: findSite(call.store, siteId)?.name ?? '', on, shortKg: kgFromGrams(shortG) },
  });
}

/** The same of the store in which a harvest is. */
export function checkStoreOf(call: Context, entryId: string): void {
  const siteId = harvestSite(call.store, entryId);
  if (siteId !== null) checkStore(call, siteId);
}

export const listCastingsMoves = (call: Signed, siteId: string | undefined): CastingsMove[] =>
  castingsMoves(call.store, siteId ?? null).map((row) => moveShape(call, row));

export function moveCastings(call: Signed, body: z.output<typeof CastingsMoveNew>): CastingsMove {
  const { store, who, now } = call;
  const find = () => moveShape(call, moveOrRefuse(call, body.id));
  const make = () => {
    const site = findSite(store, body.siteId);
    if (site === undefined) throw refuse('not-found');
    const { massKg, typed, on, ...rest } = body;
    const today = call.today(site.timeZone);
    const localDate = on ?? today;
    if (localDate > today) throw refuseField('/on', 'is still to come');
    const typedColumns = { typedValue: typed?.value ?? null, typedUnit: typed?.unit ?? null };
    insertCastingsMove(store, {
      ...{ ...rest, ...typedColumns, grams: gramsFromKg(massKg) },
      ...{ personId: who.personId, localDate, movedAt: now.toISOString() },
    });
    checkStore(call, body.siteId);
    return find();
  };
  return once(call, 'moveCastings', body, { make, find });
}

/** One's own, or of a site that one leads. */
export function undoCastingsMove(call: Signed, id: string, own: (mine: boolean) => void): CastingsMove {
  return write(call.store, () => {
    const row = moveOrRefuse(call, id);
    own(row.personId === call.who.personId || leads(call.who, row.siteId));
    if (row.undoneAt !== null) throw refuse('already-undone');
    undoMove(call.store, { id, at: call.now.toISOString(), personId: call.who.personId });
    checkStore(call, row.siteId);
    if (row.personId !== call.who.personId) call.audit('castings.undone-for-another', id, { kind: row.kind });
    return moveShape(call, moveOrRefuse(call, id));
  });
}

export function eraseReceiver(call: Signed, id: string, ownSite: (siteId: string) => void): CastingsMove {
  return write(call.store, () => {
    ownSite(moveOrRefuse(call, id).siteId);
    eraseMoveReceiver(call.store, id);
    call.audit('castings.receiver-erased', id);
    return moveShape(call, moveOrRefuse(call, id));
  });
}

const leads = ({ role, siteIds }: Who, siteId: string): boolean =>
  role === 'coordinator' || (role === 'site-lead' && (siteIds.length === 0 || siteIds.includes(siteId)));

function moveOrRefuse(call: Context, id: string): CastingsMoveRow {
  const row = castingsMoveById(call.store, id);
  if (row === null) throw refuse('not-found');
  return row;
}

function moveShape({ who }: Signed, row: CastingsMoveRow): CastingsMove {
  const { grams, typedValue, typedUnit, personId, personName, receiver, localDate, ...rest } = row;
  const mine = personId === who.personId;
  return {
    ...rest,
    massKg: kgFromGrams(grams),
    typed: typedValue === null || typedUnit === null ? null : { value: typedValue, unit: typedUnit },
    receiver: mine || leads(who, row.siteId) ? receiver : null,
    by: personId === null || personName === null ? null : { id: personId, name: nameFor(who, { id: personId, name: personName }) },
    mine,
    on: localDate,
  };
}
