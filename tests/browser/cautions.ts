/** Each caution on the page of its place, with who says so and that local rules come first. */
import type { APIRequestContext } from 'playwright-core';
import { expect, test } from 'vitest';
import { everyCaution } from '../../apps/web/src/lib/messages/en/every-caution.ts';
import { science } from '../../apps/web/src/lib/messages/en/science.ts';
import { type CautionPlace, cautionsAt } from '../../packages/domain/src/plan/caution-places.ts';

interface Stage {
  readonly bin: string;
  readonly shift: string;
  readonly request: APIRequestContext;
}

const PAGES: Readonly<Partial<Record<CautionPlace, (stage: Stage) => string>>> = {
  bin: ({ bin }) => `/bins/${bin}`,
  feeding: ({ bin }) => `/bins/${bin}/log`,
  check: ({ bin }) => `/bins/${bin}/log?kind=check`,
  care: ({ bin }) => `/bins/${bin}/log?kind=care`,
  harvest: ({ bin }) => `/bins/${bin}/log?kind=harvest`,
  worms: ({ bin }) => `/bins/${bin}/log?kind=worms`,
  shift: ({ shift }) => `/shifts/${shift}`,
  'made-up': () => '/what-if',
};

/** What a page says without scripts, tags left out. */
const textOf = (html: string) =>
  html
    .replace(/<script[\s\S]*?<\/script>/g, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ');

export function cautionWalk(stage: () => Promise<Stage>): void {
  test('product.md, safety: each caution stands on the page of its place, with its source, and defers to local rules', async () => {
    const at = await stage();
    for (const [place, pathOf] of Object.entries(PAGES) as [CautionPlace, (stage: Stage) => string][]) {
      const answer = await at.request.get(pathOf(at), { headers: { accept: 'text/html' } });
      const said = textOf(await answer.text());
      const { cautions, voices } = cautionsAt(place);
      const wanted = [
        ...cautions.map((id) => everyCaution[id]),
        ...voices.map((voice) => science.cautionVoices[voice]),
        science.rulesFirst,
      ];
      expect(
        wanted.filter((line) => !said.includes(line)),
        place,
      ).toEqual([]);
    }
  });
}
