/** How the machine behind all this is doing, for whoever has to see to it (criteria F31). */
import * as z from 'zod';
import { Id, Instant } from '../common.ts';
import { coordinators, type RouteSpec } from '../route.ts';

/** `look`: see to it in the next days; `act`: today. */
export const UPKEEP_STATES = ['well', 'look', 'act'] as const;
const State = z.enum(UPKEEP_STATES);
export type UpkeepState = z.infer<typeof State>;

export const Status = z.object({
  now: Instant.describe('by the clock of the machine'),
  backup: z.object({
    state: State,
    lastAt: Instant.nullable(),
    fault: z.string().nullable().describe('why the last one could not be made'),
  }),
  drill: z.object({ state: State, lastAt: Instant.nullable(), words: z.string().nullable().describe('how the last trial restore went') }),
  soundness: z.object({
    state: State,
    lastAt: Instant.nullable().describe('when the whole store was last read and found sound'),
    damage: z.string().nullable(),
  }),
  disk: z.object({ state: State, freeBytes: z.int(), storeBytes: z.int() }),
  mail: z.object({
    state: State,
    configured: z.boolean(),
    waiting: z.int(),
    waitingSince: Instant.nullable().describe('since when the oldest that is due waits'),
    failed: z.int().describe('in the last seven days'),
    lastError: z.string().nullable(),
  }),
  clock: z.object({
    state: State,
    possible: z.boolean().describe('false: the clock stands before the day on which the program was written'),
    phones: z.int().describe('people whose phones sent entries in the last day'),
    behindSeconds: z
      .int()
      .nullable()
      .describe('how far the clock is behind most of these phones; null when fewer than three were heard of'),
  }),
  phones: z.object({
    state: State,
    quiet: z.int().describe('phones signed in that have not been here for two weeks: what waits on them is not in the store'),
    longest: z.array(z.object({ personId: Id, name: z.string(), label: z.string(), lastSeenAt: Instant })).max(10),
  }),
});
export type Status = z.infer<typeof Status>;

export const statusRoutes = [
  {
    method: 'GET',
    path: '/api/status',
    name: 'readStatus',
    summary: 'Whether backups, disk, mail and clock are well',
    tag: 'keep',
    access: coordinators,
    own: 'nothing',
    answer: Status,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
