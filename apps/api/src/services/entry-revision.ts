import { refuse } from '../refusal.ts';

/** The revision in an If-Match header, with or without the quotation marks of an entity tag. */
export function revisionOf(header: string | undefined): number {
  const text = header?.replace(/^(W\/)?"|"$/g, '') ?? '';
  if (!/^\d{1,9}$/.test(text))
    throw refuse('invalid', { errors: [{ pointer: 'header/if-match', message: 'must be the revision that was read' }] });
  return Number(text);
}
