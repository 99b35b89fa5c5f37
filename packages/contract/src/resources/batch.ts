/** Entries that waited on a phone, sent together in the order in which they were noted. */
import * as z from 'zod';
import { ClientId, Id, Instant } from '../common.ts';
import { Problem } from '../problem.ts';
import { grownUps, type RouteSpec } from '../route.ts';
import { CareNew, NoteNew, WormsNew } from './care.ts';
import { CheckNew, Entry, FeedingNew, HarvestNew } from './entry.ts';

/** What each kind of entry is sent as. */
export const ENTRY_BODIES = {
  feeding: FeedingNew,
  check: CheckNew,
  harvest: HarvestNew,
  care: CareNew,
  note: NoteNew,
  worms: WormsNew,
} as const;
export type EntryKind = keyof typeof ENTRY_BODIES;
export const ENTRY_KINDS = Object.keys(ENTRY_BODIES) as [EntryKind, ...EntryKind[]];

export const MAX_BATCH = 50;
/** Fifty entries, each with the longest note there may be. */
const BATCH_BYTES = 512 * 1024;

export const EntryBatch = z
  .object({
    personId: Id.describe('whose entries these are: never taken for anybody else, whoever is signed in by now'),
    deviceAt: Instant.describe("the phone's clock when it sent this, for all of them"),
    entries: z
      .array(
        z
          .object({
            kind: z.enum(ENTRY_KINDS),
            keptAt: Instant.optional().describe("the phone's clock when it was kept there"),
            body: z.looseObject({ id: ClientId }).describe('as the kind is sent by itself; each is judged by itself'),
          })
          .strict(),
      )
      .min(1, 'must hold at least one entry')
      .max(MAX_BATCH, 'must hold at most 50 entries'),
  })
  .strict();

/** What became of one of them: 201 made, 200 known already, else refused and why. */
export const BatchResult = z.object({ id: Id, status: z.int(), entry: Entry.optional(), problem: Problem.optional() });
export type BatchResult = z.infer<typeof BatchResult>;

export const batchRoutes = [
  {
    method: 'POST',
    path: '/api/entries/batch',
    name: 'logBatch',
    summary: 'Log entries that waited on a phone; one that is refused keeps none of the others out',
    tag: 'entry',
    access: grownUps,
    own: 'nothing',
    body: EntryBatch,
    bodyLimitBytes: BATCH_BYTES,
    answer: z.object({ items: z.array(BatchResult) }),
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
