/**
 * One row of the route table. The API registers from it, the OpenAPI document is made from it and
 * the access test walks it: a route that is not here cannot exist.
 */
import type * as z from 'zod';
import type { Role } from './common.ts';

/** `any`: may act on every row; `own`: only on what is theirs (see `own`), else 404; `none`: 403, or 401 when nobody is signed in. */
export type Reach = 'any' | 'own' | 'none';

/** What makes a row one's own on this route. */
export type Ownership = 'person' | 'entry' | 'photo' | 'sign-up' | 'session' | 'site' | 'nothing';

export interface Access extends Readonly<Record<Role, Reach>> {
  /** Nobody signed in. */
  readonly anonymous: 'any' | 'none';
}

export interface RouteSpec {
  readonly method: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
  /** Fastify path below the root, e.g. `/api/bins/:id`. */
  readonly path: string;
  readonly name: string;
  readonly summary: string;
  readonly tag: string;
  readonly access: Access;
  readonly own: Ownership;
  /** Open to a coordinator who has no second step yet (criteria E3); every other row says `second-step-first`. */
  readonly beforeSecondStep?: true;
  readonly params?: z.ZodType;
  readonly query?: z.ZodType;
  readonly body?: z.ZodType;
  /** Where more than the usual 64 kB may come in. */
  readonly bodyLimitBytes?: number;
  /** The body is a picture or a piece of a zip as it is, not JSON. */
  readonly takes?: 'image' | 'zip';
  /** The answer is a file that may take minutes to fetch. */
  readonly sends?: 'file';
  /** Where the answer may take longer than the usual ten seconds; the reason stands beside the row (criteria F30). */
  readonly mostSeconds?: number;
  /** Tells sums of the whole log: they go out only from a store that was found sound after they were read (criteria F11). */
  readonly sums?: true;
  /** Asks without changing anything, with a secret that must not stand in an address (ASVS 14.2.1): a full disk or an older page keeps nobody from it. */
  readonly reads?: true;
  readonly answer?: z.ZodType;
  readonly status: 200 | 201 | 204;
  /** Other than JSON, e.g. `text/csv`. */
  readonly contentType?: string;
}

export const everyone = {
  anonymous: 'any',
  pupil: 'any',
  volunteer: 'any',
  'site-lead': 'any',
  coordinator: 'any',
} as const satisfies Access;
export const members = {
  anonymous: 'none',
  pupil: 'any',
  volunteer: 'any',
  'site-lead': 'any',
  coordinator: 'any',
} as const satisfies Access;
/** Site leads see and change their own site; coordinators everything. */
export const grownUps = {
  anonymous: 'none',
  pupil: 'none',
  volunteer: 'any',
  'site-lead': 'any',
  coordinator: 'any',
} as const satisfies Access;
export const leads = {
  anonymous: 'none',
  pupil: 'none',
  volunteer: 'none',
  'site-lead': 'own',
  coordinator: 'any',
} as const satisfies Access;
export const coordinators = {
  anonymous: 'none',
  pupil: 'none',
  volunteer: 'none',
  'site-lead': 'none',
  coordinator: 'any',
} as const satisfies Access;
/** Own row for everybody, every row for coordinators. */
export const owners = {
  anonymous: 'none',
  pupil: 'own',
  volunteer: 'own',
  'site-lead': 'own',
  coordinator: 'any',
} as const satisfies Access;
