import { randomBytes } from 'node:crypto';
import { hash, verify } from '@node-rs/argon2';

/** The library's enum is declared in a way that cannot be imported here; 2 is its Argon2id. */
const ARGON2ID = 2;

/** Argon2id with 19 MiB, two passes, one lane: the least that current guidance allows, and 14 ms here. */
const COST = { algorithm: ARGON2ID, memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;
const AT_ONCE = 2;

let running = 0;
const waiting: (() => void)[] = [];

/** At most two at once: each takes 19 MiB, and a burst of sign-ins must not take the machine down. */
async function inTurn<T>(work: () => Promise<T>): Promise<T> {
  if (running >= AT_ONCE) await new Promise<void>((resolve) => waiting.push(resolve));
  running += 1;
  try {
    return await work();
  } finally {
    running -= 1;
    waiting.shift()?.();
  }
}

/** Whether a stored hash was made more cheaply than today's are; one that cannot be read counts as such. */
export function isCheaper(stored: string): boolean {
  const [, memoryCost, timeCost] = /^\$argon2id\$v=19\$m=(\d+),t=(\d+),p=\d+\$/.exec(stored) ?? [];
  return Number(memoryCost ?? 0) < COST.memoryCost || Number(timeCost ?? 0) < COST.timeCost;
}

export const hashPassword = (password: string): Promise<string> => inTurn(() => hash(password, COST));

let nobody: Promise<string> | undefined;

/**
 * Whether this is the password behind the stored hash.
 *
 * Without a hash it works just as long on a hash that nothing matches, so that the time does not
 * tell whether an account exists.
 */
export async function passwordMatches(stored: string | null, password: string): Promise<boolean> {
  nobody ??= hashPassword(randomBytes(24).toString('base64'));
  const against = stored ?? (await nobody);
  const matches = await inTurn(() => verify(against, password));
  return matches && stored !== null;
}
