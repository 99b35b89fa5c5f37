/** Terms of sign-up: who may take what just now, wishes, and the draw (criteria C4). */
import { randomBytes } from 'node:crypto';
import type { SignUpSeason, SignUpSeasonChange, SignUpSeasonNew, WishesNew } from '@middenry/contract';
import { capEndsAtMs, type DrawInput, type DrawResult, drawPlaces, seasonObstacle } from '@middenry/domain';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { type ShiftRow, shiftById, shiftsBetween } from '../db/repositories/shift.ts';
import { signUpsOfShifts, takePlace } from '../db/repositories/sign-up.ts';
import {
  heldIn,
  insertSeason,
  noteDraw,
  type SeasonRow,
  seasonById,
  seasonOn,
  setWishes,
  signUpSeasons,
  updateSeason,
  wishListsOf,
} from '../db/repositories/sign-up-season.ts';
import { write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { derivedId } from './id.ts';
import { startOf } from './local-time.ts';
import { tellPlace } from './messages/occasions.ts';
import { once } from './once.ts';
import { hashOf } from './secret.ts';
import { endOf } from './shift-shape.ts';
import { siteOf } from './sites.ts';

type OwnSite = (siteId: string) => void;
interface KeptDraw {
  readonly input: DrawInput;
  readonly result: DrawResult;
}
const SEED_BYTES = 16;

export const seasonShapes = (call: Context, rows: readonly SeasonRow[]): SignUpSeason[] => rows.map((row) => seasonShape(call, row));

export const listSignUpSeasons = (call: Context, siteId: string | undefined): SignUpSeason[] =>
  seasonShapes(call, signUpSeasons(call.store, siteId ?? null));

function seasonShape({ store, who }: Context, row: SeasonRow): SignUpSeason {
  const { seed, draw, drawnAt, timeZone: _zone, ...rest } = row;
  const lists = wishListsOf(store, row.id);
  const mine = lists.find(({ personId }) => personId === who?.personId);
  return {
    ...rest,
    capUntil: new Date(capEndsAtMs(Date.parse(row.opensAt))).toISOString(),
    seedHash: hashOf(seed),
    wishLists: lists.length,
    myWishes: mine === undefined ? null : { most: mine.most, shiftIds: JSON.parse(mine.shiftIds) as string[] },
    draw: draw === null || drawnAt === null ? null : drawShape(JSON.parse(draw) as KeptDraw, { at: drawnAt, personId: who?.personId }),
  };
}

function drawShape({ input, result }: KeptDraw, { at, personId }: { at: string; personId: string | undefined }): SignUpSeason['draw'] {
  return {
    at,
    seed: input.seed,
    places: result.won.length,
    mine: result.won.filter((place) => place.personId === personId).map(({ shiftId }) => shiftId),
    same: JSON.stringify(drawPlaces(input)) === JSON.stringify(result),
  };
}

function seasonOrRefuse(call: Context, id: string): SeasonRow {
  const row = seasonById(call.store, id);
  if (row === null) throw refuse('not-found');
  return row;
}

export function addSignUpSeason(call: Signed, body: z.output<typeof SignUpSeasonNew>): SignUpSeason {
  const find = () => seasonShape(call, seasonOrRefuse(call, body.id));
  const make = () => {
    siteOf(call.store, body.siteId);
    checkSeason(call, body);
    const opensAt = instantOf(body.opensAt);
    insertSeason(call.store, { ...body, opensAt, seed: randomBytes(SEED_BYTES).toString('hex'), createdAt: call.now.toISOString() });
    call.audit('sign-up-season.added', body.id, { way: body.way });
    return find();
  };
  return once(call, 'addSignUpSeason', body, { make, find });
}

export function changeSignUpSeason(call: Signed, id: string, body: z.output<typeof SignUpSeasonChange>, ownSite: OwnSite): SignUpSeason {
  return write(call.store, () => {
    const before = seasonOrRefuse(call, id);
    ownSite(before.siteId);
    if (before.drawnAt !== null) throw refuse('drawn-already');
    const after = { ...before, ...body };
    checkSeason(call, after);
    updateSeason(call.store, { ...after, opensAt: instantOf(after.opensAt) });
    call.audit('sign-up-season.changed', id, { ...body });
    return seasonShape(call, seasonOrRefuse(call, id));
  });
}

/** Instants are compared as text, so they are kept in one form. */
const instantOf = (text: string): string => new Date(text).toISOString();

/** One way of sharing out at a time: terms of a site do not overlap. */
function checkSeason(call: Signed, season: { id: string; siteId: string; from: string; to: string }): void {
  if (season.to < season.from) throw refuseField('/to', 'must not be before the first day');
  const overlaps = signUpSeasons(call.store, season.siteId).some(
    (other) => other.id !== season.id && other.from <= season.to && season.from <= other.to,
  );
  if (overlaps) throw refuseField('/from', 'must not overlap another term of this site');
}

/** Not over and not called off. */
function shiftsIn(call: Context, season: SeasonRow): ShiftRow[] {
  const range = { from: season.from, to: season.to, siteId: season.siteId, personId: null };
  return shiftsBetween(call.store, range).filter((row) => row.cancelledAt === null && endOf(row) > call.now.getTime());
}

export function putWishes(call: Signed, id: string, body: z.output<typeof WishesNew>): SignUpSeason {
  return write(call.store, () => {
    const season = seasonOrRefuse(call, id);
    if (season.way !== 'draw') throw refuseField('/shiftIds', 'are not asked for in this term');
    if (season.drawnAt !== null) throw refuse('drawn-already');
    const there = new Set(shiftsIn(call, season).map((row) => row.id));
    const strange = body.shiftIds.findIndex((shiftId, at) => !there.has(shiftId) || body.shiftIds.indexOf(shiftId) !== at);
    if (strange >= 0) throw refuseField(`/shiftIds/${strange}`, 'is not another shift of this term');
    setWishes(call.store, { seasonId: id, personId: call.who.personId, ...body, saidAt: call.now.toISOString() });
    return seasonShape(call, seasonOrRefuse(call, id));
  });
}

/** Once and for all, in one transaction; what was drawn from is kept, so that anybody can draw again and compare. */
export function drawSeason(call: Signed, id: string, ownSite: OwnSite): SignUpSeason {
  return write(call.store, () => {
    const season = seasonOrRefuse(call, id);
    ownSite(season.siteId);
    if (season.way !== 'draw')
      throw refuse('invalid', { errors: [{ pointer: '/way', message: 'is first come: there is nothing to draw' }] });
    if (season.drawnAt !== null) throw refuse('drawn-already');
    if (call.now.toISOString() < season.opensAt) throw refuse('date-in-future', { detail: 'Wishes are taken until the term opens.' });
    const input = drawInput(call, season);
    const result = drawPlaces(input);
    const at = call.now.toISOString();
    for (const { personId, shiftId } of result.won) {
      const place = { id: derivedId(id, `${personId} ${shiftId}`), shiftId, personId, keepsOffers: 1, at } as const;
      if (!takePlace(call.store, place)) throw new Error(`Cannot draw as every place won must be free: current value is ${shiftId}`);
      tellPlace(call, 'place-got', { personId, shift: shiftById(call.store, shiftId)!, occasion: place.id });
    }
    noteDraw(call.store, id, { at, text: JSON.stringify({ input, result }) });
    call.audit('sign-up-season.drawn', id, { places: result.won.length });
    return seasonShape(call, seasonOrRefuse(call, id));
  });
}

function drawInput(call: Signed, season: SeasonRow): DrawInput {
  const rows = shiftsIn(call, season);
  const signUps = signUpsOfShifts(
    call.store,
    rows.map(({ id }) => id),
  );
  const people = wishListsOf(call.store, season.id).map(({ personId, most, shiftIds }) => ({
    ...{ id: personId, most },
    wishes: JSON.parse(shiftIds) as string[],
  }));
  const shifts = rows.map((row) => ({
    id: row.id,
    free: row.places - row.taken,
    startsAtMs: startOf(row).startsAt.getTime(),
    endsAtMs: endOf(row),
    held: signUps.filter(({ shiftId }) => shiftId === row.id).map(({ personId }) => personId),
  }));
  return { seed: season.seed, shifts, people };
}

export interface SeasonStand {
  readonly season: SeasonRow;
  readonly obstacle: ReturnType<typeof seasonObstacle>;
}

/** What the term says to this person about taking a place by themselves. */
export function standInSeason(call: Context, season: SeasonRow, personId: string): SeasonStand {
  const nowMs = call.now.getTime();
  const held = heldIn(call.store, personId, season).filter((row) => endOf(row) > nowMs).length;
  const { way, cap, opensAt, drawnAt } = season;
  return { season, obstacle: seasonObstacle({ way, cap, drawn: drawnAt !== null, opensAtMs: Date.parse(opensAt), nowMs, held }) };
}

/** A coordinator who signs somebody up answers for it; everybody else keeps to what the term says. */
export function refuseBySeason(call: Signed, shift: Pick<ShiftRow, 'siteId' | 'localDate'>, personId: string): void {
  const season = seasonOn(call.store, shift.siteId, shift.localDate);
  if (season === null) return;
  const { obstacle } = standInSeason(call, season, personId);
  if (obstacle === null) return;
  const { id, opensAt, cap } = season;
  const capUntil = new Date(capEndsAtMs(Date.parse(opensAt))).toISOString();
  throw refuse(obstacle, { help: { seasonId: id, opensAt, cap, capUntil } });
}
