import type { BoardBin, Flag } from '../bin/types.ts';
import { dayNumber } from '../format/days.ts';
import { leadOnBoard } from './aside.ts';

/** Bins that one cause is likely to have reached together: they take one place in the list. */
export interface Group {
  readonly signal: Flag['signal'];
  /** Of the worst of them. */
  readonly band: 'act' | 'watch';
  readonly bins: readonly BoardBin[];
  /** When the first of them began, or is likely to. */
  readonly fromOn: string;
  /** Whether it is so already in each of them, or is still to come in some. */
  readonly holdsNow: boolean;
}
export type Row = { readonly bin: BoardBin; readonly group?: never } | { readonly group: Group; readonly bin?: never };

/** A flag is widespread when it begins within a day in a fifth of the bins, and in three at least (criteria A.2). */
const LEAST_SHARE = 0.2;
const LEAST_BINS = 3;
const WITHIN_DAYS = 1;

interface Begun {
  readonly bin: BoardBin;
  readonly flag: Flag;
  readonly on: string;
  readonly day: number;
}

/** What speaks for a bin in the list, where it may have spread: a bin that nobody has looked at was left alone by itself. */
function begunOf(bin: BoardBin): Begun[] {
  const flag = leadOnBoard(bin);
  const on = flag?.sinceOn ?? flag?.firstLikelyOn ?? null;
  if (flag === undefined || on === null || (bin.band !== 'act' && bin.band !== 'watch') || flag.signal === 'unseen') return [];
  return [{ bin, flag, on, day: dayNumber(on) }];
}

/** The most of them that begin within a day of each other, the earliest such. */
function together(begun: readonly Begun[]): readonly Begun[] {
  const from = (first: Begun) => begun.filter(({ day }) => day >= first.day && day <= first.day + WITHIN_DAYS);
  return begun.map(from).reduce<readonly Begun[]>((most, next) => {
    const isMore = next.length > most.length || (next.length === most.length && Number(next[0]?.day) < Number(most[0]?.day));
    return isMore ? next : most;
  }, []);
}

function groupOf(begun: readonly Begun[]): Group {
  const first = begun.reduce((a, b) => (b.day < a.day ? b : a));
  return {
    signal: first.flag.signal,
    band: begun.some(({ bin }) => bin.band === 'act') ? 'act' : 'watch',
    bins: begun.map(({ bin }) => bin),
    fromOn: first.on,
    holdsNow: begun.every(({ flag }) => flag.holdsNow),
  };
}

/**
 * A list in which what is widespread is one row, where its worst bin stood. Every bin is in exactly one row.
 *
 * @param count All bins in sight, the well ones too: the share is of them
 */
export function inRows(list: readonly BoardBin[], count: number): Row[] {
  const begun = list.flatMap(begunOf);
  const groups = [...new Set(begun.map(({ flag }) => flag.signal))]
    .map((signal) => together(begun.filter(({ flag }) => flag.signal === signal)))
    .filter(({ length }) => length >= LEAST_BINS && length >= LEAST_SHARE * count)
    .map(groupOf);
  const shown = new Set<Group>();
  return list.flatMap((bin): Row[] => {
    const group = groups.find(({ bins }) => bins.includes(bin));
    if (group === undefined) return [{ bin }];
    if (shown.has(group)) return [];
    shown.add(group);
    return [{ group }];
  });
}

/** What helps most of them: the remedy that is first for the most bins, and for how many. */
export function helpsMost({ bins }: Group): { readonly id: Flag['remedies'][number]['id']; readonly times: number } | null {
  const first = bins.flatMap((bin) => leadOnBoard(bin)?.remedies[0]?.id ?? []);
  const times = (id: (typeof first)[number]) => first.filter((other) => other === id).length;
  const id = [...new Set(first)].sort((a, b) => times(b) - times(a))[0];
  return id === undefined ? null : { id, times: times(id) };
}
