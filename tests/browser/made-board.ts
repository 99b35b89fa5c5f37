/** A board of any size made of what the demonstration's own bins say, so that a page can be seen with as many in trouble as wanted. */
import type { Board, BoardBin } from '@middenry/contract';
import type { Band } from '@middenry/domain';

export type Bands = Readonly<Partial<Record<Exclude<Band, 'settled'>, number>>>;

/** Bins by place; those in trouble are spread among the well ones, as they are in life. */
export function madeBoard(real: Board, count: number, bands: Bands): Board {
  const like = (band: Band): BoardBin => {
    const found = real.bins.find((bin) => bin.band === band);
    if (found) return found;
    const well = real.bins.find((bin) => bin.band === 'settled') ?? real.bins[0]!;
    return { ...well, band, flags: band === 'settled' ? [] : (real.bins.find((bin) => bin.flags.length > 0)?.flags ?? []) };
  };
  const wanted = Object.entries(bands).flatMap(([band, n]) => Array.from({ length: n }, () => band as Band));
  const step = Math.max(1, Math.floor(count / Math.max(1, wanted.length)));
  const bins = Array.from({ length: count }, (_, place): BoardBin => {
    const band = place % step === 0 ? (wanted[place / step] ?? 'settled') : 'settled';
    const n = String(place + 1).padStart(12, '0');
    return { ...like(band), id: `0199f000-0000-7000-8000-${n}`, code: `A${place + 1}`, siteId: 'one', placeOrder: place };
  });
  const counts = { act: 0, watch: 0, unknown: 0, settled: 0 };
  for (const { band } of bins) counts[band] += 1;
  return { ...real, bins, counts };
}
