import { expect, test } from 'vitest';
import { killTabs } from './tab-kills.ts';

test('B11 at length: 200 tabs killed 0 to 200 ms after the tap', async () => {
  const { said, unsaid, unsaidThere, cold, faults } = await killTabs(200);
  console.log(`200 kills, ${cold} after a cold start with no network: ${said} said to be saved, ${unsaid} not (${unsaidThere} were)`);
  expect(faults).toEqual([]);
  expect(said).toBeGreaterThan(50);
  expect(unsaid).toBeGreaterThan(5);
});
