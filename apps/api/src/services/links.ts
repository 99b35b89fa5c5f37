import { LINK_KINDS, type Link, type LinkMade, type LinkNew } from '@middenry/contract';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { findLink, findLinkByHash, insertLink, type LinkRow, listLinks, revokeLink } from '../db/repositories/link.ts';
import { write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { hashOf, newToken } from './secret.ts';
import { siteOf } from './sites.ts';

type Shape = z.output<typeof Link>;

const shapeOf = ({ id, kind, siteId, label, createdAt, revokedAt }: LinkRow): Shape => ({
  id,
  // Calendar links are kept elsewhere; those of this table are of the kinds that are made here.
  kind: kind === 'season' ? 'season' : 'board',
  siteId,
  label,
  createdAt,
  revoked: revokedAt !== null,
});

/** Where a link of each kind leads. A spreadsheet can only open an address; what a browser opens is read there, after the #, and sent as a body. */
const PATHS = { board: (token: string) => `/look#${token}`, season: (token: string) => `/season-link/${token}.csv` } as const;

export const readerLinks = (context: Signed): Shape[] => listLinks(context.store, LINK_KINDS).map(shapeOf);

/** Makes a link; its secret is in this answer only, so the same id cannot be asked for twice. */
export function addLink(context: Signed, body: z.output<typeof LinkNew>): z.output<typeof LinkMade> {
  const { store, now } = context;
  return write(store, () => {
    if (findLink(store, body.id) !== undefined) throw refuse('same-id-other-content');
    if (body.siteId !== null) siteOf(store, body.siteId);
    const token = newToken();
    insertLink(store, { ...body, tokenHash: hashOf(token), createdBy: context.who.personId, createdAt: now.toISOString() });
    context.audit('link-made', body.id);
    return { ...shapeOf(findLink(store, body.id)!), path: PATHS[body.kind](token) };
  });
}

export function takeBackLink(context: Signed, id: string): Shape {
  return write(context.store, () => {
    if (findLink(context.store, id) === undefined) throw refuse('not-found');
    revokeLink(context.store, id, context.now.toISOString());
    context.audit('link-revoked', id);
    return shapeOf(findLink(context.store, id)!);
  });
}

/** What a link opens; a revoked one looks as if it had never been. */
export function openLink(context: Context, token: string, kind: Shape['kind'] = 'board'): LinkRow {
  const link = findLinkByHash(context.store, hashOf(token));
  if (link === undefined || link.revokedAt !== null || link.kind !== kind) throw refuse('not-found');
  return link;
}
