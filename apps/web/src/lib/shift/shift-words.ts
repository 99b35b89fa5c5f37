import type { Bin } from '../bin/types.ts';
import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';
import type { Shift } from './types.ts';

type Codes = ReadonlyMap<string, string>;

export function codesOf(bins: readonly Pick<Bin, 'id' | 'code'>[]): Codes {
  return new Map(bins.map((b) => [b.id, b.code]));
}

/** What there is to do, kind by kind: "Feed R02 and R05, check R12". */
export function dutiesInWords(shift: Shift, codes: Codes, f: Format): string {
  const kinds = [...new Set(shift.duties.map((d) => d.kind))];
  const said = kinds.map((kind) => {
    const at = shift.duties.filter((d) => d.kind === kind).flatMap((d) => codes.get(d.binId) ?? []);
    return words.shifts.dutyAt(words.duties[kind], f.list(at));
  });
  return said.map((s, i) => (i === 0 ? s : s.charAt(0).toLowerCase() + s.slice(1))).join(', ');
}

export interface Job {
  readonly binId: string;
  readonly code: string;
  readonly what: string;
}

/** One line per bin, in the order in which the shift names them. */
export function jobsOf(shift: Shift, codes: Codes): Job[] {
  const ids = [...new Set([...shift.duties.map((d) => d.binId), ...shift.binIds])];
  return ids.flatMap((binId) => {
    const code = codes.get(binId);
    const what = shift.duties.filter((d) => d.binId === binId).map((d) => words.duties[d.kind]);
    return code === undefined
      ? []
      : [
          {
            binId,
            code,
            what: what.length === 0 ? words.shifts.lookAfter : what.map((w, i) => (i === 0 ? w : w.toLowerCase())).join(', '),
          },
        ];
  });
}

export function openPlaces(shift: Shift): number {
  return shift.cancelled || shift.over ? 0 : Math.max(0, shift.places - shift.taken);
}

export function whenInWords(shift: Shift, f: Format): string {
  return `${f.longDate(shift.localDate)}, ${f.timeSpan(shift.localTime, shift.minutes)}`;
}
