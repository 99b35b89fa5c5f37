/** What to do on one shift, bin by bin, with the amounts of today. */
import type { ShiftCard } from '@middenry/contract';
import { DUTY_FACTS, type DutyKind, gramsFromKg, kgFromGrams, type Outlook } from '@middenry/domain';
import type * as z from 'zod';
import type { Context } from '../context.ts';
import { type BinRow, findBin } from '../db/repositories/bin.ts';
import { type ContainerRow, containersOf } from '../db/repositories/container.ts';
import { ENTRY_OF_DUTY, notedOn, resultsOfShift } from '../db/repositories/duty-result.ts';
import { feedingsOfShift, type ShiftFeedingRow } from '../db/repositories/intake.ts';
import { readBeddingStock, USUAL_BEDDING } from './bedding.ts';
import { dutiesAt, whatIsKnown } from './duties.ts';
import { materialNames } from './materials.ts';
import { outlookFor } from './outlook-cache.ts';
import { readShift } from './shifts.ts';

type Card = z.output<typeof ShiftCard>;
type CardBin = Card['bins'][number];
type CardDuty = CardBin['duties'][number];
type Part = { readonly materialId: string; readonly name: string; readonly massKg: number };

export async function readShiftCard(call: Context, shiftId: string): Promise<Card> {
  const shift = readShift(call, shiftId);
  const scene = sceneOf(call, shift);
  const binIds = [...new Set([...shift.binIds, ...shift.duties.map(({ binId }) => binId)])];
  const bins: CardBin[] = [];
  for (const id of binIds) {
    const bin = findBin(call.store, id)!;
    if (bin.state === 'retired') continue;
    const { outlook, today } = await outlookFor(call, bin);
    bins.push(binCard(scene, bin, outlook, today));
  }
  const duties = bins.flatMap((bin) => bin.duties);
  return {
    shift,
    amountsOn: call.today(shift.timeZone),
    bins,
    bring: bringList(call, shift.siteId, duties),
    cautions: [...new Set([...duties.flatMap(({ cautions }) => cautions), ...forPupils(shift)])],
    minutes: duties.reduce((sum, { minutes }) => sum + minutes, 0),
  };
}

interface CardScene {
  readonly shift: Card['shift'];
  readonly known: ReturnType<typeof whatIsKnown>;
  readonly results: ReturnType<typeof resultsOfShift>;
  readonly noted: ReturnType<typeof notedOn>;
  readonly containers: readonly ContainerRow[];
  nameOf(materialId: string): string;
  /** Of a plan of scraps on offer that was accepted. */
  readonly planned: readonly ShiftFeedingRow[];
}

function sceneOf(call: Context, shift: Card['shift']): CardScene {
  const { store } = call;
  return {
    shift,
    known: whatIsKnown(call),
    results: resultsOfShift(store, shift.id),
    noted: notedOn(store, [...shift.binIds, ...shift.duties.map(({ binId }) => binId)], shift.localDate),
    containers: containersOf(store, shift.siteId).filter(({ archived }) => archived === 0),
    nameOf: materialNames(call),
    planned: feedingsOfShift(store, shift.id),
  };
}

function binCard(scene: CardScene, bin: BinRow, outlook: Outlook, today: string): CardBin {
  const due = dutiesAt(bin, outlook, today, scene.known);
  const kinds = scene.shift.duties.filter(({ binId }) => binId === bin.id).map(({ kind }) => kind);
  const duties = kinds.map((kind): CardDuty => {
    const window = due.find((each) => each.kind === kind);
    const said = scene.results.find((row) => row.binId === bin.id && row.kind === kind);
    const cautions = [...DUTY_FACTS[kind].cautions, ...forPupils(scene.shift)];
    return {
      kind,
      minutes: scene.known.minutesOf(bin.siteId, kind),
      why: window?.why ?? null,
      urgency: window?.urgency ?? null,
      feed: kind === 'feed' ? feedOf(scene, bin, outlook) : null,
      massKg: amountKg(outlook, kind),
      cautions,
      result: said?.result ?? null,
      note: said?.note ?? '',
      noted: scene.noted.some((row) => row.binId === bin.id && row.what === ENTRY_OF_DUTY[kind]),
    };
  });
  return { id: bin.id, code: bin.code, name: bin.name, band: outlook.band, duties };
}

/** Where pupils come, adults stand beside them, whatever is to do. */
const forPupils = ({ adults }: Card['shift']): readonly 'pupils'[] => (adults.pupils > 0 ? ['pupils'] : []);

function feedOf(scene: CardScene, bin: BinRow, outlook: Outlook): NonNullable<CardDuty['feed']> {
  const planned = scene.planned.filter(({ binId }) => binId === bin.id);
  return planned.length > 0 ? plannedFeed(scene, planned, outlook) : advisedFeed(scene, outlook);
}

/** The amounts of the plan; whatever the bin asks to hold back today is said beside them. */
function plannedFeed(scene: CardScene, planned: readonly ShiftFeedingRow[], { advice }: Outlook): NonNullable<CardDuty['feed']> {
  const parts = (wanted: ShiftFeedingRow['part']) =>
    planned.filter(({ part }) => part === wanted).map(({ materialId, grams }) => partOf(scene, materialId, kgFromGrams(grams)));
  const scraps = parts('scraps');
  const massKg = kgFromGrams(planned.reduce((sum, { part, grams }) => sum + (part === 'scraps' ? grams : 0), 0));
  return {
    ...{ from: 'intake', massKg, lowKg: massKg, highKg: massKg, hold: advice.hold, scraps, bedding: parts('bedding') },
    zones: [...advice.zones],
    containers: containersFor(scene.containers, massKg),
  };
}

function advisedFeed(scene: CardScene, { advice }: Outlook): NonNullable<CardDuty['feed']> {
  const { massKg, lowKg, highKg, zones, hold, beddingKg } = advice;
  const bedding = beddingKg > 0 ? [partOf(scene, USUAL_BEDDING, beddingKg)] : [];
  return {
    ...{ from: 'advice', massKg, lowKg, highKg, hold, scraps: [], bedding },
    zones: [...zones],
    containers: containersFor(scene.containers, massKg),
  };
}

const partOf = ({ nameOf }: Pick<CardScene, 'nameOf'>, materialId: string, massKg: number): Part => ({
  materialId,
  name: nameOf(materialId),
  massKg,
});

/** A container that is filled less than half is no help, nor is one that must be filled twelve times. */
const MOST_FILLS = 12;

/** The mass in half containers of each size that suits it. */
export function containersFor(containers: readonly ContainerRow[], massKg: number): { containerId: string; name: string; count: number }[] {
  return containers
    .map(({ id, name, fullG }) => ({ containerId: id, name, count: Math.floor((2 * gramsFromKg(massKg)) / fullG) / 2 }))
    .filter(({ count }) => count > 0 && count <= MOST_FILLS);
}

/** What the first remedy that is this work says, or the castings that are there. */
function amountKg({ signals, now }: Outlook, kind: DutyKind): number | null {
  if (kind === 'harvest') return now.castingsKgWb.p50;
  const wanted = kind === 'water' ? ['add-water'] : kind === 'bedding' ? ['add-bedding', 'mix-in-bedding'] : [];
  const remedies = signals.flatMap((signal) => signal.remedies).filter(({ id, massKg }) => wanted.includes(id) && massKg !== null);
  return remedies[0]?.massKg ?? null;
}

function bringList(call: Context, siteId: string, duties: readonly CardDuty[]): Card['bring'] {
  const stock = readBeddingStock(call, siteId);
  const names = { nameOf: materialNames(call) };
  const needed = new Map<string, number>();
  const need = (materialId: string, massKg: number) => needed.set(materialId, (needed.get(materialId) ?? 0) + massKg);
  for (const { kind, feed, massKg } of duties) {
    for (const part of feed?.bedding ?? []) need(part.materialId, part.massKg);
    if (kind === 'bedding' && massKg !== null) need(USUAL_BEDDING, massKg);
  }
  return {
    bedding: [...needed].map(([materialId, massKg]) => ({
      ...partOf(names, materialId, massKg),
      inStoreKg: stock.find((row) => row.materialId === materialId)?.massKg ?? 0,
    })),
    waterKg: duties.reduce((sum, { kind, massKg }) => sum + (kind === 'water' ? (massKg ?? 0) : 0), 0),
  };
}
