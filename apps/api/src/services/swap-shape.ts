/** Places on offer as whoever asks may see them. */
import type { Swap } from '@middenry/contract';
import type * as z from 'zod';
import type { Context } from '../context.ts';
import { placesHeldOn } from '../db/repositories/sign-up.ts';
import type { SwapRow } from '../db/repositories/swap.ts';
import { nameFor } from './names.ts';

/** Mine, those made to me, and those made to anybody; coordinators see all. A pupil takes no place, so sees none. */
export function swapShapes(call: Context, rows: readonly SwapRow[]): z.output<typeof Swap>[] {
  const { who } = call;
  if (who === null || who.role === 'pupil') return [];
  const me = who.personId;
  return rows
    .filter(({ fromPersonId, toPersonId }) => who.role === 'coordinator' || toPersonId === null || [fromPersonId, toPersonId].includes(me))
    .map(({ id, shiftId, signUpId, fromPersonId, fromName, toPersonId, toName, inReturn, madeAt }) => ({
      ...{ id, shiftId, signUpId, madeAt },
      inReturn: [...inReturn],
      from: { id: fromPersonId, name: nameOf(call, fromPersonId, fromName) },
      to: toPersonId === null ? null : { id: toPersonId, name: nameOf(call, toPersonId, toName) },
      mine: fromPersonId === me,
      returnable: inReturn.length === 0 || fromPersonId === me ? [] : placesHeldOn(call.store, me, inReturn).map((place) => place.id),
    }));
}

const nameOf = ({ who }: Context, id: string, name: string | null): string => (name === null ? '' : nameFor(who, { id, name }));
