/** The rounds that the test runs a few of and the proof hundreds; each says in words what went wrong. */
import { idOf, type LastPlace, RACERS, type RacerKey, type Round } from './last-place.ts';

const ALL = Object.keys(RACERS) as RacerKey[];
const FAR = { localDate: '2026-12-05', localTime: '10:00' };
/** Two hours after the cast's clock: no time to take turns any more (criteria C3). */
const SOON = { localDate: '2026-11-25', localTime: '12:00' };
/** A place offered on the cast's morning is kept until the next. */
const OFFER_ENDS = new Date('2026-11-26T10:00:00.000Z');

/** Faults of any round: one winner, who stands there alone, and losers who are told why. */
function faultsOf({ answers, won, onShift, invitation }: Round): string[] {
  const faults: string[] = [];
  if (won.length !== 1) faults.push(`won by ${won.join(' and ') || 'nobody'}`);
  if (JSON.stringify(onShift) !== JSON.stringify(won.map(idOf))) faults.push(`on the shift: ${onShift.length}`);
  for (const key of ALL) {
    if (won.includes(key)) continue;
    const { status, code, nearest, waitingCount } = answers[key];
    if (status !== 409 || code !== 'shift-full') faults.push(`${key} was told ${status} ${code}`);
    // A full shift is said with who waits and what else is free (criteria C2).
    if (nearest === undefined || waitingCount === undefined) faults.push(`${key} was told of nothing else`);
  }
  // Who was too late can still say no, or come if the place is given back.
  const wanted = won.includes('asked') ? 'accepted' : 'invited';
  if (invitation !== wanted) faults.push(`the invitation is ${invitation}`);
  return faults;
}

const forOne = (round: Round, key: RacerKey): string[] => (round.won[0] === key ? [] : [`${round.won[0]} took a place kept for ${key}`]);

export const ROUNDS: Readonly<Record<string, (here: LastPlace) => Promise<{ round: Round; faults: string[] }>>> = {
  'asked against whoever comes': async (here) => {
    const round = await here.race(await here.stage({ ...FAR, offered: false }), 'statement');
    return { round, faults: faultsOf(round) };
  },
  'kept for whoever waits': async (here) => {
    const round = await here.race(await here.stage({ ...FAR, offered: true }), 'statement');
    return { round, faults: [...faultsOf(round), ...forOne(round, 'waiting')] };
  },
  'offered to all in the last hours': async (here) => {
    const round = await here.race(await here.stage({ ...SOON, offered: true }), 'statement');
    return { round, faults: faultsOf(round) };
  },
  'offered, and running out at this moment': async (here) => {
    const { clock } = here.cast;
    const began = clock.at;
    const stage = await here.stage({ ...FAR, offered: true });
    clock.at = OFFER_ENDS;
    const before = new Date(clock.at.getTime() - 1).toISOString();
    // Two clocks still say that it is kept, the others that it is free.
    const round = await here.race(stage, 'statement', { waiting: before, comes: before });
    clock.at = began;
    return { round, faults: faultsOf(round) };
  },
};

/** The most people that one of so many rounds puts on a shift of one place when servers look first and write afterwards. */
export async function naiveCrowd(here: LastPlace, rounds: number): Promise<number> {
  let most = 0;
  for (let count = 0; count < rounds; count += 1) {
    const { onShift } = await here.race(await here.stage({ ...FAR, offered: false }), 'naive');
    most = Math.max(most, onShift.length);
  }
  return most;
}
