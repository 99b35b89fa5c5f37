import type { MadeUpDay, WhatIfSignal } from '@middenry/domain';

/** What happens in a story without anybody doing it. */
export type Happening =
  | { readonly day: number; readonly what: 'begins' | 'ends'; readonly signal: WhatIfSignal }
  | { readonly day: number; readonly what: 'worms-halved' | 'worms-gone' };

const LIKELY = 0.5;
const HALF = 0.5;
const HARDLY_ANY = 0.02;

/** When each trouble begins and ends in most of the members, and when the worms have dwindled. */
export function happeningsOf(days: readonly MadeUpDay[]): readonly Happening[] {
  const first = days[0];
  if (first === undefined) return [];
  const found: Happening[] = [];
  for (const signal of Object.keys(first.shares) as WhatIfSignal[]) {
    let there = false;
    for (const { ahead, shares } of days) {
      const now = shares[signal] >= LIKELY;
      if (now !== there) found.push({ day: ahead, what: now ? 'begins' : 'ends', signal });
      there = now;
    }
  }
  for (const [what, share] of [
    ['worms-halved', HALF],
    ['worms-gone', HARDLY_ANY],
  ] as const) {
    const on = days.find(({ wormsKg }) => wormsKg.p50 < share * first.wormsKg.p50);
    if (on !== undefined) found.push({ day: on.ahead, what });
  }
  return found.sort((a, b) => a.day - b.day);
}

/** The troubles of a day, the likeliest first. */
export const troublesOn = ({ shares }: MadeUpDay): readonly WhatIfSignal[] =>
  (Object.keys(shares) as WhatIfSignal[]).filter((id) => shares[id] >= LIKELY).sort((a, b) => shares[b] - shares[a]);
