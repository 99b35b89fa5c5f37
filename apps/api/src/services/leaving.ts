/** What somebody still holds when they may come no longer. */
import type { Signed } from '../context.ts';
import { endMessages } from '../db/repositories/message.ts';
import { shiftById } from '../db/repositories/shift.ts';
import { giveBack, placesHeldFrom } from '../db/repositories/sign-up.ts';
import { endSwapsOf } from '../db/repositories/swap.ts';
import { endWaiting, waitingOfPerson } from '../db/repositories/waiting.ts';
import { addDays, localDateAt } from './local-time.ts';
import { endOf } from './shift-shape.ts';
import { settleWaiting } from './waiting.ts';

/**
 * Ends their open swaps, leaves the waiting lists and gives back every place on a shift that is not
 * over, so that whoever waits is offered it. Call it inside the write that shuts them out: whether a
 * shift still has adults enough is read from its places, and so is true in the same moment.
 *
 * @returns How many places were given back
 */
export function giveUpAllOf(call: Signed, personId: string): number {
  const { store, now } = call;
  const at = now.toISOString();
  for (const { id, shiftId } of endSwapsOf(store, personId, at)) endMessages(store, { kind: 'swap-offered', shiftId, occasion: id, at });
  const waits = waitingOfPerson(store, personId);
  for (const { id } of waits) endWaiting(store, id, { at, how: 'left' });
  // A day early covers every zone; what is over by its own clock stays as it was.
  const held = placesHeldFrom(store, personId, addDays(localDateAt(now, 'UTC'), -1)).filter(({ shiftId }) => {
    const shift = shiftById(store, shiftId);
    return shift !== null && endOf(shift) > now.getTime();
  });
  for (const { id } of held) giveBack(store, id, at);
  for (const shiftId of new Set([...held, ...waits].map((row) => row.shiftId))) settleWaiting(store, shiftId, now);
  return held.length;
}
