import { createHash } from 'node:crypto';
import type { RouteName } from '@middenry/contract';
import type { Context } from '../context.ts';
import { sqliteCodeOf } from '../db/fault.ts';
import { findApplied, insertApplied } from '../db/repositories/applied.ts';
import { write } from '../db/store.ts';
import { refuse } from '../refusal.ts';

interface Steps<T> {
  /** Does it, the first time. */
  make(): T;
  /** Reads what the first time made. */
  find(): T;
}

/**
 * Applies something that carries a client-made id exactly once, in one transaction.
 *
 * The same id with the same content gives the stored thing again; with other content it is
 * refused, and somebody else's id looks as if it were not there.
 */
export function once<T, B extends { readonly id: string }>(context: Context, route: RouteName, body: B, steps: Steps<T>): T {
  const personId = context.who?.personId ?? null;
  const bodyHash = fingerprint(body);
  return write(context.store, () => {
    const applied = findApplied(context.store, body.id);
    if (applied !== undefined) {
      if (applied.personId !== personId || applied.route !== route) throw refuse('not-found');
      if (applied.bodyHash !== bodyHash) throw refuse('same-id-other-content');
      context.again();
      return steps.find();
    }
    insertApplied(context.store, body.id, { route, personId, bodyHash }, context.now.toISOString());
    return makeNew(steps);
  });
}

/** An id that stands in the store although it was never applied came in some other way, such as a restored backup. */
function makeNew<T>(steps: Steps<T>): T {
  try {
    return steps.make();
  } catch (error) {
    throw sqliteCodeOf(error) === 'SQLITE_CONSTRAINT_PRIMARYKEY' ? refuse('same-id-other-content') : error;
  }
}

/** Hash of what was sent, whatever the order of its fields; when it was sent does not count, since a retry is sent later. */
export function fingerprint(body: object): string {
  return createHash('sha256')
    .update(JSON.stringify(ordered(body)))
    .digest('hex');
}

function ordered(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(ordered);
  if (value === null || typeof value !== 'object') return value;
  const entries = Object.entries(value).filter(([key]) => key !== 'deviceAt');
  return Object.fromEntries(entries.sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, inner]) => [key, ordered(inner)]));
}
