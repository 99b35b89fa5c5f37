/** What a site weighs, counts and brings for itself. */
import { addDays, startOf } from '../apps/api/src/services/local-time.ts';
import type { Chance } from './chance.ts';
import type { Task } from './rounds.ts';
import { type SiteStory, TIME_ZONE } from './world/sites.ts';

export interface StockScene {
  readonly site: SiteStory;
  readonly siteId: string;
  readonly leadId: string;
  readonly today: string;
  readonly chance: Chance;
  readonly containerIds: ReadonlyMap<string, string>;
}

const WEIGHED_DAYS_AGO = [390, 300, 190, 75];
const COUNTED_DAYS_AGO = 25;
const BROUGHT_DAYS_AGO = 9;
const TARE_KG = 0.3;

export function stockTasks(scene: StockScene): Task[] {
  const { site, siteId, leadId, today, chance, containerIds } = scene;
  const on = (daysAgo: number) => startOf({ localDate: addDays(today, -daysAgo), localTime: '11:30', timeZone: TIME_ZONE }).startsAt;
  const task = (daysAgo: number, url: string, body: object): Task => {
    const at = new Date(on(daysAgo).getTime() + chance.whole(0, 3000) * 1000);
    return { at, personId: leadId, method: 'POST', url, body: { id: chance.id(at), ...body } };
  };
  const weighings = site.containers.flatMap(({ key, fullKg }) =>
    WEIGHED_DAYS_AGO.map((daysAgo) => {
      const massKg = Math.round((TARE_KG + fullKg * chance.between(0.9, 1.1)) * 100) / 100;
      return task(daysAgo, `/api/containers/${containerIds.get(key)}/weighings`, { massKg });
    }),
  );
  const bedding = { siteId, materialId: site.bedding };
  return [
    ...weighings,
    task(COUNTED_DAYS_AGO, '/api/bedding-moves', { ...bedding, kind: 'counted', massKg: chance.whole(8, 14) }),
    task(BROUGHT_DAYS_AGO, '/api/bedding-moves', { ...bedding, kind: 'brought', massKg: chance.whole(4, 9) }),
  ];
}
