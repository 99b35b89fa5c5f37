import type { BoardBin, Flag } from '../bin/types.ts';

/** For how many days a flag can be put aside from the board; thirty is the most there is. */
export const ASIDE_DAYS = [3, 7, 14, 30] as const;

/**
 * The flag that a bin's place in the list speaks of. A bin nobody knows leads with that; a flag the model still
 * holds comes second. One that is put aside lets the next of the same band speak.
 */
export function leadOnBoard(bin: Pick<BoardBin, 'band' | 'flags' | 'notes'>): Flag | undefined {
  const unseen = bin.band === 'unknown' ? bin.flags.find(({ signal }) => signal === 'unseen') : undefined;
  const isAside = (flag: Flag) => bin.notes.some((note) => note.kind === 'aside' && note.signal === flag.signal);
  return unseen ?? bin.flags.find((flag) => flag.band === bin.band && !isAside(flag)) ?? bin.flags[0];
}
