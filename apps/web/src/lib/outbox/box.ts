import type { Problem } from '@middenry/contract';
import { type Kept, openPhone } from '../phone/open.ts';
import type { Box } from './drain.ts';
import { tell } from './news.ts';

/** Everything that waits on this phone, whoever wrote it, in the order in which it was kept. */
export async function allKept(): Promise<Kept[]> {
  return (await (await openPhone()).getAll('entries')) as Kept[];
}

/** The part of the phone's store that the sender empties for one person. */
export function boxOf(personId: string): Box {
  return {
    waiting: async () => (await allKept()).filter((entry) => entry.personId === personId && entry.problem === null),
    drop: async ({ seq }) => (await openPhone()).delete('entries', seq),
    refuse: (entry, problem) => putBack({ ...entry, problem }),
  };
}

/** Puts an entry that was refused back among those that wait, as it is or mended. */
export async function tryAgain(entry: Kept, body: Kept['body'] = entry.body): Promise<void> {
  await putBack({ ...entry, id: body.id, body, problem: null });
  tell({ kind: 'kept', id: body.id });
}

export async function throwAway({ seq, id }: Kept): Promise<void> {
  await (await openPhone()).delete('entries', seq);
  tell({ kind: 'dropped', id });
}

async function putBack(entry: Kept & { readonly problem: Problem | null }): Promise<void> {
  // The page's own copy is a proxy, which a store cannot copy.
  await (await openPhone()).put('entries', JSON.parse(JSON.stringify(entry)) as Kept);
}
