/** Coordinators are told when what keeps their store wants somebody: nobody looks at a status page that they have no reason to open (criteria F13, F31). */
import type { Context } from '../../context.ts';
import { isBelievable } from '../../db/clock-sense.ts';
import { listPersons } from '../../db/repositories/person.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import { type Store, write } from '../../db/store.ts';
import { storeStatus } from '../status.ts';
import { tell } from './tell.ts';

const LOOK_MS = 5 * 60_000;
/** What mends itself by the next look of the keeper is no news. */
const STANDING_MS = 15 * 60_000;

export type UpkeepFault = 'backup' | 'drill' | 'soundness' | 'disk';

interface Watched {
  lookedAtMs: number;
  /** Since when each fault has been seen without a break. */
  readonly sinceMs: Map<UpkeepFault, number>;
}

const watchedOf = new WeakMap<Store, Watched>();

/** Looks every five minutes; tells each coordinator of each fault once a day, and says how many messages are new. */
export function watchUpkeep(call: Context): number {
  const { store, now, keeper } = call;
  const programme = findProgramme(store);
  if (keeper === undefined || programme === undefined || programme.isDemo || !isBelievable(now)) return 0;
  const watched = watchedOf.get(store) ?? { lookedAtMs: Number.NEGATIVE_INFINITY, sinceMs: new Map() };
  watchedOf.set(store, watched);
  const nowMs = now.getTime();
  // A clock that was put back must not stop the looking.
  if (nowMs >= watched.lookedAtMs && nowMs < watched.lookedAtMs + LOOK_MS) return 0;
  watched.lookedAtMs = nowMs;
  const standing = standingFaults(watched, faultsOf(call), nowMs);
  if (standing.length === 0) return 0;
  const day = call.today(programme.timeZone);
  const coordinators = listPersons(store).filter(({ role, disabled }) => role === 'coordinator' && !disabled);
  const told = write(store, () =>
    standing.flatMap(({ part, urgent }) =>
      coordinators.filter(({ id }) =>
        tell(store, { personId: id, kind: 'upkeep', occasion: `${part} ${day}`, facts: { part }, now, urgent }),
      ),
    ),
  );
  return told.length;
}

interface Fault {
  readonly part: UpkeepFault;
  readonly urgent: boolean;
}

function standingFaults({ sinceMs }: Watched, faults: readonly Fault[], nowMs: number): readonly Fault[] {
  for (const part of [...sinceMs.keys()]) if (!faults.some((fault) => fault.part === part)) sinceMs.delete(part);
  for (const { part } of faults) sinceMs.set(part, Math.min(sinceMs.get(part) ?? nowMs, nowMs));
  return faults.filter(({ part }) => nowMs - sinceMs.get(part)! >= STANDING_MS);
}

/**
 * What is wrong by the status page's own limits. What was never yet done is no fault, and of a damaged store every page
 * tells by itself, and a mail goes past it (damage-mail.ts): nothing is written into that one, no message either.
 */
function faultsOf(call: Context): readonly Fault[] {
  const { backup, drill, soundness, disk } = storeStatus(call);
  if (soundness.damage !== null) return [];
  const isWrong = { backup: backup.state === 'act', drill: drill.lastAt !== null, soundness: soundness.lastAt !== null, disk: true };
  return Object.entries({ backup, drill, soundness, disk })
    .filter(([part, { state }]) => state !== 'well' && isWrong[part as UpkeepFault])
    .map(([part, { state }]) => ({ part: part as UpkeepFault, urgent: state === 'act' }));
}
