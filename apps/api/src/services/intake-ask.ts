/** A site's bins and bedding as the plan of scraps on offer wants them. */
import { setTimeout as delay } from 'node:timers/promises';
import { type BinEvent, type IntakeAsk, materialOf, type Outlook, type PlannedFeeding, type ScrapFacts, USUAL_MIX } from '@middenry/domain';
import type { Context } from '../context.ts';
import { type BinRow, listBins } from '../db/repositories/bin.ts';
import { readBeddingStock, USUAL_BEDDING } from './bedding.ts';
import { daysBetween } from './local-time.ts';
import { type OwnMaterials, portionOf } from './materials.ts';
import { outlookFor, troubleFor } from './outlook-cache.ts';

/** The food that the advice is given in. */
const REFERENCE = 'food_scraps_veg';

export interface OfferedStream {
  readonly materialId: string;
  readonly massKg: number;
}

export interface BinScene {
  readonly bin: BinRow;
  readonly outlook: Outlook;
}

export interface LookedAt {
  readonly bins: readonly BinScene[];
  /** Bins for which the time did not suffice. */
  readonly unlooked: readonly BinRow[];
}

/**
 * The bins that are fed, as far as they can be looked at until then: right after a start each has to be stepped through its whole log.
 *
 * @param untilMs On the clock of `performance.now()`
 */
export async function binScenes(call: Pick<Context, 'store' | 'today'>, siteId: string, untilMs: number): Promise<LookedAt> {
  const active = listBins(call.store, { siteId }).filter(({ state }) => state === 'active');
  const bins: BinScene[] = [];
  const unlooked: BinRow[] = [];
  for (const bin of active) {
    const found = performance.now() < untilMs ? await inTime(outlookFor(call, bin), untilMs) : null;
    if (found === null) unlooked.push(bin);
    else bins.push({ bin, outlook: found.outlook });
  }
  return { bins, unlooked };
}

async function inTime<T>(work: Promise<T>, untilMs: number): Promise<T | null> {
  const waited = new AbortController();
  const late = delay(Math.max(0, untilMs - performance.now()), null, { signal: waited.signal, ref: false }).catch(() => null);
  const answer = await Promise.race([work, late]);
  waited.abort();
  return answer;
}

export function intakeAsk(call: Context, siteId: string, streams: readonly OfferedStream[], scene: AskScene): IntakeAsk {
  const { bins, own } = scene;
  const factsOf = (id: string): ScrapFacts => materialOf(portionOf(own, id, { massKg: 1 }));
  const stock = readBeddingStock(call, siteId);
  const inStore = stock.some(({ materialId }) => materialId === USUAL_BEDDING)
    ? stock
    : [...stock, { materialId: USUAL_BEDDING, massKg: 0 }];
  return {
    streams: streams.map(({ materialId, massKg }, at) => ({ id: String(at), massKg, facts: factsOf(materialId) })),
    bins: bins.map(({ bin, outlook }) => ({ id: bin.id, adviceKg: outlook.advice.massKg })),
    bedding: inStore.map(({ materialId, massKg }) => ({ id: materialId, massKg, facts: factsOf(materialId) })),
    reference: materialOf({ material: REFERENCE }),
    mix: USUAL_MIX,
  };
}

export interface AskScene {
  readonly bins: readonly BinScene[];
  readonly own: OwnMaterials;
}

type Tried = Pick<PlannedFeeding, 'binId' | 'scraps' | 'bedding'>;

/** How likely trouble is when a bin is fed as planned on that day; null when the time is up. The same feeding is tried once. */
export function troubleOfPlan(
  call: Pick<Context, 'store' | 'today'>,
  streams: readonly OfferedStream[],
  scene: AskScene,
  when: { readonly on: string; readonly untilMs: number },
) {
  const tried = new Map<string, Promise<number>>();
  const anew = (feeding: Tried): Promise<number> => {
    const { bin, outlook } = scene.bins.find((each) => each.bin.id === feeding.binId)!;
    const fedDay = daysBetween(bin.startedOn, when.on);
    return troubleFor(call, bin, (today) => feedingEvents(feeding, streams, { ...scene, outlook, day: Math.max(today + 1, fedDay) }));
  };
  return ({ binId, scraps, bedding }: Tried): Promise<number> | null => {
    const key = JSON.stringify([binId, scraps, bedding]);
    const known = tried.get(key);
    if (known !== undefined || performance.now() > when.untilMs) return known ?? null;
    const made = anew({ binId, scraps, bedding });
    tried.set(key, made);
    return made;
  };
}

function feedingEvents(
  { scraps, bedding }: Pick<PlannedFeeding, 'scraps' | 'bedding'>,
  streams: readonly OfferedStream[],
  { own, outlook, day }: AskScene & { readonly outlook: Outlook; readonly day: number },
): BinEvent[] {
  const zones = zonesOf(outlook);
  const share = (massKg: number) => massKg / zones.length;
  return zones.flatMap((zone): BinEvent[] => [
    {
      ...{ day, type: 'feeding', zone },
      items: scraps.map(({ id, massKg }) => portionOf(own, streams[Number(id)]!.materialId, { massKg: share(massKg), how: 'weighed' })),
    },
    ...bedding.map(
      ({ id, massKg }): BinEvent => ({
        ...{ day, type: 'bedding', zone, mixedIn: true },
        items: [portionOf(own, id, { massKg: share(massKg) })],
      }),
    ),
  ]);
}

export const zonesOf = ({ advice }: Outlook): readonly number[] => (advice.zones.length > 0 ? advice.zones : [1]);
