/** Keeping it: audit, backups, restore drill, the demonstration's age; and read-only links. */
import * as z from 'zod';
import { ClientId, Empty, Id, Instant, PersonRef } from '../common.ts';
import { coordinators, everyone, type RouteSpec } from '../route.ts';
import { Board } from './outlook.ts';
import { IdParams } from './place.ts';

export const AuditLine = z.object({
  id: z.int(),
  at: Instant,
  by: PersonRef.nullable(),
  action: z.string(),
  subject: z.string(),
  detail: z.record(z.string(), z.unknown()),
});
export const Backup = z.object({ file: z.string(), madeAt: Instant, bytes: z.int(), kind: z.enum(['hourly', 'asked-for']) });
export const Keep = z.object({
  lastBackup: Backup.nullable(),
  backups: z.int(),
  lastDrill: z
    .object({ at: Instant, ok: z.boolean(), words: z.string() })
    .nullable()
    .describe('the newest backup, restored into a folder of its own and compared'),
  drillOverdue: z.boolean(),
  lastFault: z.string().nullable().describe('why the last backup could not be made'),
  damage: z
    .object({ since: Instant, words: z.string(), keptAs: z.string().nullable(), newestBackup: z.string().nullable() })
    .nullable()
    .describe('the store is damaged: what the check said, the name of its copy, and the backup to bring back'),
  freeBytes: z.int(),
  storeBytes: z.int(),
  diskLow: z.boolean(),
  demoIsOld: z.boolean().describe('the demonstration is older than three days and may be made anew'),
});
/** `board`: the board without names; `season`: the totals of a season as CSV, for a spreadsheet that asks again. */
export const LINK_KINDS = ['board', 'season'] as const;
export const Link = z.object({
  id: Id,
  kind: z.enum(LINK_KINDS),
  siteId: Id.nullable(),
  label: z.string(),
  createdAt: Instant,
  revoked: z.boolean(),
});
export const LinkNew = z
  .object({ id: ClientId, kind: z.enum(LINK_KINDS), siteId: Id.nullable().default(null), label: z.string().trim().max(80).default('') })
  .strict();
export const LinkMade = Link.extend({
  path: z
    .string()
    .describe(
      'address below the public address, shown once, such as /look#… or /season-link/….csv; what stands after a # is never sent to a server',
    ),
});
const LinkedBoardAsk = z.object({ token: z.string().regex(/^[\w-]{22,64}$/, 'is not a link') }).strict();

export const keepRoutes = [
  {
    method: 'POST',
    path: '/api/demonstration',
    name: 'renewDemonstration',
    summary: 'Make an old demonstration anew, up to today; it answers again after some seconds',
    tag: 'keep',
    access: coordinators,
    own: 'nothing',
    body: Empty,
    status: 204,
  },
  {
    method: 'GET',
    path: '/api/audit',
    name: 'readAudit',
    summary: 'Who did what, newest first',
    tag: 'keep',
    access: coordinators,
    own: 'nothing',
    query: z.object({ before: z.coerce.number().int().optional(), limit: z.coerce.number().int().min(1).max(200).default(100) }),
    answer: z.object({ items: z.array(AuditLine), more: z.boolean() }),
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/keep',
    name: 'readKeep',
    summary: 'Backups, drills and disk',
    tag: 'keep',
    access: coordinators,
    own: 'nothing',
    answer: Keep,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/keep/backups',
    name: 'addBackup',
    // A hundred megabytes are copied, read back and synced.
    mostSeconds: 120,
    summary: 'Make a backup now',
    tag: 'keep',
    access: coordinators,
    own: 'nothing',
    body: Empty,
    answer: Backup,
    status: 201,
  },
  {
    method: 'GET',
    path: '/api/links',
    name: 'listLinks',
    summary: 'Read-only links',
    tag: 'keep',
    access: coordinators,
    own: 'nothing',
    answer: z.object({ items: z.array(Link) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/links',
    name: 'addLink',
    summary: 'Make a read-only link to the board or to the totals of a season, without names',
    tag: 'keep',
    access: coordinators,
    own: 'nothing',
    body: LinkNew,
    answer: LinkMade,
    status: 201,
  },
  {
    method: 'DELETE',
    path: '/api/links/:id',
    name: 'revokeLink',
    summary: 'Make a link useless at once',
    tag: 'keep',
    access: coordinators,
    own: 'nothing',
    params: IdParams,
    answer: Link,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/linked-boards',
    name: 'readLinkedBoard',
    reads: true,
    summary: 'The board of a link, without names',
    tag: 'keep',
    access: everyone,
    own: 'nothing',
    body: LinkedBoardAsk,
    answer: Board,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
