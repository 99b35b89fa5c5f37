/** What the sign-up page shows to one person: mine, what I wait for, what fits me, and all that is open. */
import type { PlaceCard, Places, Shift } from '@middenry/contract';
import type { Signed } from '../context.ts';
import { dutiesOfShifts, type ShiftRow, shiftsBetween } from '../db/repositories/shift.ts';
import { groupsOfShifts } from '../db/repositories/shift-group.ts';
import { signUpsOfShifts } from '../db/repositories/sign-up.ts';
import { type SeasonRow, signUpSeasons } from '../db/repositories/sign-up-season.ts';
import { openSwapsOf } from '../db/repositories/swap.ts';
import { waitingOfShifts } from '../db/repositories/waiting.ts';
import { addDays, localDateAt, startOf } from './local-time.ts';
import { obstaclesTo } from './rota-facts.ts';
import { endOf, groupBy, shiftShapes, standingOf } from './shift-shape.ts';
import { seasonShapes, standInSeason } from './sign-up-seasons.ts';
import { swapShapes } from './swap-shape.ts';

const NEXT_THAT_FIT = 3;
const MOST_OPEN = 300;
const MOST_MINE = 30;

export interface PlacesQuery {
  readonly days: number;
  readonly siteId?: string | undefined;
}

export function readPlaces(call: Signed, { days, siteId }: PlacesQuery): Places {
  const { store, who, now } = call;
  const day = localDateAt(now, 'UTC');
  const range = { from: addDays(day, -1), to: addDays(day, days + 1) };
  const isAhead = (row: ShiftRow) => row.cancelledAt === null && endOf(row) > now.getTime();
  const isMySite = (id: string) => (siteId === undefined || siteId === id) && (who.siteIds.length === 0 || who.siteIds.includes(id));
  const mine = shiftsBetween(store, { ...range, siteId: null, personId: who.personId }).filter(isAhead);
  const mineIds = new Set(mine.map(({ id }) => id));
  const there = shiftsBetween(store, { ...range, siteId: siteId ?? null, personId: null }).filter(
    (row) => isAhead(row) && isMySite(row.siteId) && !mineIds.has(row.id),
  );
  const seasons = signUpSeasons(store, null).filter((season) => isMySite(season.siteId) && season.to >= range.from);
  const cardOf = cardsFor(call, { rows: there, seasons });
  const openCards = [...cardOf.values()].filter(({ taken, places }) => taken < places).slice(0, MOST_OPEN);
  const offers = swapShapes(call, openSwapsOf(store, [...cardOf.keys()])).filter((swap) => !swap.mine && canTake(swap, who.personId));
  return {
    mine: shiftShapes(call, mine.slice(0, MOST_MINE)),
    waits: waitsOf(call, cardOf),
    fits: openCards
      .filter(({ inTheWay }) => inTheWay === null)
      .slice(0, NEXT_THAT_FIT)
      .map(({ id }) => id),
    open: openCards,
    handOvers: offers.map((swap) => ({ swap, place: cardOf.get(swap.shiftId)! })),
    seasons: seasonShapes(call, seasons),
  };
}

/** Coordinators see every offer; on this page stand those that they themselves may take. */
const canTake = ({ to, inReturn, returnable }: Shift['swaps'][number], personId: string): boolean =>
  (to === null || to.id === personId) && (inReturn.length === 0 || returnable.length > 0);

function waitsOf({ store, who }: Signed, cardOf: ReadonlyMap<string, PlaceCard>): PlaceCard[] {
  const waits = waitingOfShifts(store, [...cardOf.keys()]).filter(({ personId }) => personId === who.personId);
  return waits.map(({ shiftId }) => cardOf.get(shiftId)!);
}

interface CardScene {
  readonly rows: readonly ShiftRow[];
  readonly seasons: readonly SeasonRow[];
}

/** Everything that the lines of the list need, read once for all of them. */
function cardsFor(call: Signed, { rows, seasons }: CardScene): ReadonlyMap<string, PlaceCard> {
  const { store, who } = call;
  const ids = rows.map(({ id }) => id);
  const of = <T extends { readonly shiftId: string }>(list: readonly T[]) => groupBy(list, ({ shiftId }) => shiftId);
  const duties = of(dutiesOfShifts(store, ids));
  const waiting = of(waitingOfShifts(store, ids));
  const groups = of(groupsOfShifts(store, ids));
  // Who comes is asked only where it decides whether pupils may.
  const signUps = of(signUpsOfShifts(store, [...groups.keys()]));
  const stands = new Map(seasons.map((season) => [season.id, standInSeason(call, season, who.personId)]));
  const obstacles = obstaclesTo(call, who.personId, rows);
  const cards = rows.map((row): PlaceCard => {
    const season = seasons.find(({ siteId, from, to }) => siteId === row.siteId && from <= row.localDate && row.localDate <= to);
    const { startsAt, timeMoved } = startOf(row);
    const myWait = waiting.get(row.id)?.find(({ personId }) => personId === who.personId);
    const { id, siteId, siteName, title, localDate, localTime, minutes, places, taken } = row;
    return {
      ...{ id, siteId, siteName, title, localDate, localTime, timeMoved, minutes, places, taken },
      startsAt: startsAt.toISOString(),
      duties: countDuties(duties.get(id) ?? []),
      adults: standingOf(row, { signUps: signUps.get(id) ?? [], groups: groups.get(id) ?? [] }),
      waitingCount: waiting.get(id)?.length ?? 0,
      offeredUntil: myWait?.offerUntil ?? null,
      seasonId: season?.id ?? null,
      inTheWay: (season && stands.get(season.id)?.obstacle) ?? obstacles.get(id)?.[0]?.rule ?? null,
    };
  });
  return new Map(cards.map((card) => [card.id, card]));
}

function countDuties(duties: readonly Pick<Shift['duties'][number], 'kind'>[]): PlaceCard['duties'] {
  const counts = new Map<PlaceCard['duties'][number]['kind'], number>();
  for (const { kind } of duties) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  return [...counts].map(([kind, bins]) => ({ kind, bins }));
}
