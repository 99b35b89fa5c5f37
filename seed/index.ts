/** The demonstration: invented people and figures, made through the API's own routes. */
import type { FastifyInstance } from 'fastify';
import type { MovableClock } from '../apps/api/src/context.ts';
import { addDays, localDateAt, startOf } from '../apps/api/src/services/local-time.ts';
import { actsOf } from './acts.ts';
import { chanceOf } from './chance.ts';
import { cover } from './covering.ts';
import { roundTasks, type Task } from './rounds.ts';
import { stockTasks } from './stock.ts';
import { type Teller, tellerOf } from './teller.ts';
import { BINS, type BinStory } from './world/bins.ts';
import { OWNER, PEOPLE, type PersonStory } from './world/people.ts';
import { MAX_C, MIN_C, SITES, type SiteKey, type SiteStory, TIME_ZONE } from './world/sites.ts';

/** Days of log before today: fourteen months. */
export const LOG_DAYS = 426;

/** Makes the whole programme and leaves the clock where it stood. */
export async function makeDemo(app: FastifyInstance, { clock }: { readonly clock: MovableClock }): Promise<void> {
  const endsAt = clock.now();
  const today = localDateAt(endsAt, TIME_ZONE);
  const teller = tellerOf(app, clock);
  const stage = await setStage(app, teller, today);
  const tasks = [...SITES.flatMap((site) => siteTasks(stage, site, today)), ...stage.binTasks];
  await teller.tell(tasks.filter((task) => task.at < endsAt).sort((a, b) => a.at.getTime() - b.at.getTime()));
  await cover({ teller, at: endsAt, today, ...stage, ...whoKeeps(stage) });
  clock.at = endsAt;
  await teller.end();
}

interface Stage {
  readonly ownerId: string;
  readonly siteIds: ReadonlyMap<SiteKey, string>;
  readonly binIds: ReadonlyMap<string, string>;
  readonly containerIds: ReadonlyMap<string, string>;
  readonly personIds: ReadonlyMap<string, string>;
  readonly binTasks: readonly Task[];
}

async function setStage(app: FastifyInstance, teller: Teller, today: string): Promise<Stage> {
  const chance = chanceOf('stage');
  const at = startOf({ localDate: addDays(today, -LOG_DAYS - 14), localTime: '18:00', timeZone: TIME_ZONE }).startsAt;
  teller.clock.at = at;
  const ownerId = chance.id(at);
  await app.middenry.begin({
    programme: { id: chance.id(at), name: 'Marlpit and friends', isDemo: true, timeZone: TIME_ZONE },
    coordinator: { id: ownerId, name: OWNER },
  });
  const make = async (url: string, body: object) => {
    const id = chance.id(at);
    await teller.send({ at, personId: ownerId, method: 'POST', url, body: { id, ...body } });
    return id;
  };
  const siteIds = new Map<SiteKey, string>();
  const containerIds = new Map<string, string>();
  for (const { key, name, note, containers } of SITES) {
    const siteId = await make('/api/sites', { name, note, timeZone: TIME_ZONE, minC: MIN_C, maxC: MAX_C });
    siteIds.set(key, siteId);
    for (const { key: containerKey, name: called, litres, fullKg } of containers)
      containerIds.set(containerKey, await make('/api/containers', { siteId, name: called, litres, fullKg, tareKg: 0.3 }));
  }
  const personIds = new Map<string, string>();
  for (const person of PEOPLE) personIds.set(person.name, await make('/api/people', personBody(person, siteIds)));
  const binIds = new Map(BINS.map((bin) => [bin.code, chance.id(at)]));
  const binTasks = BINS.map((bin, order) =>
    binTask(bin, { order, ownerId, id: binIds.get(bin.code)!, siteId: siteIds.get(bin.site)!, today }),
  );
  return { ownerId, siteIds, binIds, containerIds, personIds, binTasks };
}

const personBody = ({ name, role, sites }: PersonStory, siteIds: ReadonlyMap<SiteKey, string>) => ({
  name,
  role,
  siteIds: sites.map((site) => siteIds.get(site)),
  isAdult: role !== 'pupil',
});

function binTask(bin: BinStory, parts: { order: number; ownerId: string; id: string; siteId: string; today: string }): Task {
  const startedOn = addDays(parts.today, -bin.startedDaysAgo);
  const { code, name, kind, areaM2, depthM, zones, exposure, openBase = false, wormsKg, bedWaterKg } = bin;
  return {
    at: startOf({ localDate: startedOn, localTime: '08:00', timeZone: TIME_ZONE }).startsAt,
    personId: parts.ownerId,
    method: 'POST',
    url: '/api/bins',
    body: {
      ...{
        id: parts.id,
        siteId: parts.siteId,
        code,
        name,
        kind,
        areaM2,
        depthM,
        zones,
        exposure,
        openBase,
        startedOn,
        wormsKg,
        bedWaterKg,
      },
      bed: [{ materialId: 'cardboard_corrugated', massKg: bin.beddingStartKg }],
      checkIntervalDays: 7,
      placeOrder: parts.order,
    },
  };
}

const idsOf = (stage: Pick<Stage, 'personIds'>, site: SiteKey, role: PersonStory['role']): string[] =>
  PEOPLE.filter((person) => person.role === role && person.sites.includes(site)).map((person) => stage.personIds.get(person.name)!);

const whoKeeps = (stage: Stage) => ({
  leadIds: new Map(SITES.map(({ key }) => [key, idsOf(stage, key, 'site-lead')[0]!])),
  volunteerIds: new Map(SITES.map(({ key }) => [key, idsOf(stage, key, 'volunteer')])),
});

/** What happened at one site: rounds, and everything noted at its bins. */
function siteTasks(stage: Stage, site: SiteStory, today: string): Task[] {
  const siteId = stage.siteIds.get(site.key)!;
  const volunteerIds = idsOf(stage, site.key, 'volunteer');
  const leadId = idsOf(stage, site.key, 'site-lead')[0]!;
  const bins = BINS.filter((bin) => bin.site === site.key);
  const rounds = roundTasks({
    ...{ site, siteId, leadId, volunteerIds, today },
    began: addDays(today, -LOG_DAYS + 35),
    binIds: bins.filter((bin) => bin.startedDaysAgo > 405).map((bin) => stage.binIds.get(bin.code)!),
    chance: chanceOf(`rounds ${site.key}`),
  });
  const noted = bins.flatMap((story) => {
    const chance = chanceOf(`bin ${story.code}`);
    const binId = stage.binIds.get(story.code)!;
    const hands = [...volunteerIds, ...volunteerIds, leadId];
    return actsOf({ story, site, today, chance, containerIds: stage.containerIds }).map(
      (act): Task => ({ at: act.at, personId: chance.pick(hands), method: 'POST', url: act.url, body: { ...act.body, binId } }),
    );
  });
  const stock = stockTasks({ ...{ site, siteId, leadId, today }, chance: chanceOf(`stock ${site.key}`), containerIds: stage.containerIds });
  return [...rounds, ...noted, ...stock];
}
