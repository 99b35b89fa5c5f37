import { REMEDY_IDS } from '@middenry/domain';
import { expect, it } from 'vitest';
import { deedsOf, deedsOfAll, formOf, readSteps } from './remedy-deeds.ts';

const step = (id: (typeof REMEDY_IDS)[number]) => ({ id, zone: 2, massKg: 0.5 });

it('every remedy is noted at once, noted in a form, or is nothing done', () => {
  const ways = REMEDY_IDS.map((id) => [id, deedsOf(step(id)).length > 0, formOf('b', [step(id)]) !== null] as const);
  expect(ways.filter(([, atOnce, inForm]) => atOnce && inForm)).toEqual([]);
  expect(ways.filter(([, atOnce, inForm]) => !atOnce && !inForm).map(([id]) => id)).toEqual(['hold-next-feed', 'feed-half']);
});

it('a pair is noted at once only when both can be', () => {
  expect(deedsOfAll([step('loosen'), step('mix-in-bedding')]).map(({ action }) => action)).toEqual(['loosened', 'loosened', 'bedding']);
  expect(deedsOfAll([step('loosen'), step('harvest')])).toEqual([]);
  expect(deedsOfAll([step('take-out-uneaten'), step('hold-next-feed')]).map(({ action }) => action)).toEqual(['taken-out']);
});

it('what a form sends back is read, and nothing else', () => {
  expect(readSteps(JSON.stringify([step('loosen')]))).toEqual([step('loosen')]);
  for (const odd of ['', '[]', '{}', '[1]', '[null]', '[{},{},{}]', 'null']) expect(readSteps(odd), odd).toBeNull();
});
