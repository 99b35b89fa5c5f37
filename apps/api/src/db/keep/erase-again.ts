/** Does again, in a store that comes from before, what was done since: erasures, withdrawals, photos taken off or marked. */
import { eraseAgain, markAgain, takeOffAgain, withdrawAgain } from '../repositories/erasure.ts';
import { findProgramme } from '../repositories/programme.ts';
import type { Store } from '../store.ts';
import type { ErasureList } from './erasures.ts';

/** As far as anything knows of it. */
export interface Again {
  readonly erased: number;
  readonly withdrawn: number;
  readonly photosGone: number;
  readonly marked: number;
  /** How far what knows of it reaches; null: nothing does, neither a list beside the backup nor a store that was here. */
  readonly knownUntil: string | null;
}

/** Call inside a `write`. What another programme's list says is of no use here. */
export function eraseAsKnown(store: Store, known: readonly ErasureList[], now: Date): Again {
  const programme = findProgramme(store)?.id ?? null;
  const ours = known.filter((list) => list.programme === programme);
  const sum = (again: (list: ErasureList) => number) => ours.reduce((all, list) => all + again(list), 0);
  // Photos first: whoever is erased takes those along in which they were named.
  const photosGone = sum((list) => takeOffAgain(store, list.photosGone));
  const marked = sum((list) => markAgain(store, list.marked));
  const withdrawn = sum((list) => withdrawAgain(store, list.withdrawn));
  const erased = sum((list) => eraseAgain(store, list.erased, now));
  const until = ours.map(({ writtenAt }) => writtenAt).sort();
  return { erased, withdrawn, photosGone, marked, knownUntil: until.at(-1) ?? null };
}

export const againDetail = ({ erased, withdrawn, photosGone, marked }: Again) => ({
  ...{ erasedAgain: erased, withdrawnAgain: withdrawn, photosTakenOffAgain: photosGone, photosMarkedAgain: marked },
});

/** Says to whoever runs a command what is not back, or that nobody can know. */
export function againWords({ erased, withdrawn, photosGone, marked, knownUntil }: Again, where: string): string[] {
  if (knownUntil === null)
    return [
      `There is no list of erasures ${where}: whoever was erased after it was made is back, and so are photos that were taken off. Erase them again, and delete photos whose consents were withdrawn.`,
    ];
  const number = (n: number, one: string, more: string) => `${n} ${n === 1 ? one : more}`;
  const done = `Erased again ${number(erased, 'person', 'people')} and withdrew again ${number(withdrawn, 'consent', 'consents')}`;
  const photos =
    photosGone + marked === 0 ? '' : ` Took off again ${number(photosGone, 'photo', 'photos')} and marked again ${marked} as of people.`;
  return [`${done}, by what is known until ${knownUntil.slice(0, 10)}.${photos}`];
}
