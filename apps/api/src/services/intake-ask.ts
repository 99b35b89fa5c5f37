/** A site's bins and bedding as the plan of scraps on offer wants them. */
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

export async function binScenes(call: Context, siteId: string): Promise<BinScene[]> {
  const scenes: BinScene[] = [];
  for (const bin of listBins(call.store, { siteId })) {
    if (bin.state !== 'active') continue;
    const { outlook } = await outlookFor(call, bin);
    scenes.push({ bin, outlook });
  }
  return scenes;
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

/** How likely trouble is when a bin is fed as planned on that day. */
export function troubleOfPlan(call: Context, streams: readonly OfferedStream[], scene: AskScene, on: string) {
  return (feeding: Pick<PlannedFeeding, 'binId' | 'scraps' | 'bedding'>): Promise<number> => {
    const { bin, outlook } = scene.bins.find((each) => each.bin.id === feeding.binId)!;
    const fedDay = daysBetween(bin.startedOn, on);
    return troubleFor(call, bin, (today) => feedingEvents(feeding, streams, { ...scene, outlook, day: Math.max(today + 1, fedDay) }));
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
