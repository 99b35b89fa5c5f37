/** What full containers weigh here: the middle of the site's own last weighings. */
import type { Container, WeighingNew } from '@middenry/contract';
import { gramsFromKg } from '@middenry/domain';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import { containerById, insertWeighing, lastWeighings, updateContainer } from '../db/repositories/container.ts';
import { refuse, refuseField } from '../refusal.ts';
import { once } from './once.ts';
import { containerView } from './stuff.ts';

/** What people bring changes with the year, so older weighings no longer count. */
const WEIGHINGS_COUNTED = 12;

export function weighContainer(call: Signed, containerId: string, body: z.output<typeof WeighingNew>): z.output<typeof Container> {
  const find = () => containerView(containerOrRefuse(call, containerId));
  const make = () => {
    const row = containerOrRefuse(call, containerId);
    const netG = gramsFromKg(body.massKg) - row.tareG;
    if (netG < 1) throw refuseField('/massKg', 'must be more than the empty container weighs');
    insertWeighing(call.store, {
      id: body.id,
      containerId,
      netG,
      filled: body.filled,
      personId: call.who.personId,
      weighedAt: call.now.toISOString(),
    });
    updateContainer(call.store, { ...row, fullG: middleFullG(lastWeighings(call.store, containerId, WEIGHINGS_COUNTED)) });
    return find();
  };
  return once(call, 'weighContainer', { ...body, containerId }, { make, find });
}

/** The median, so that one slip of the finger moves nothing; a container half full counts double. */
export function middleFullG(weighings: readonly { readonly netG: number; readonly filled: number }[]): number {
  const full = weighings.map(({ netG, filled }) => netG / filled).sort((a, b) => a - b);
  const middle = full.length >> 1;
  return Math.round(full.length % 2 === 1 ? full[middle]! : (full[middle - 1]! + full[middle]!) / 2);
}

function containerOrRefuse(call: Signed, id: string) {
  const row = containerById(call.store, id);
  if (row === null) throw refuse('not-found');
  return row;
}
