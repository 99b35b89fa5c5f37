/** What an entry must keep to before it is written. Each rule has its own code. */
import { containersAtSite, type EntryBinRow, shiftSite } from '../db/repositories/entry-place.ts';
import type { EntryDetail } from '../db/repositories/entry-types.ts';
import type { Store } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { SKEW_TOLD_S } from './entry-shape.ts';
import { localDateAt } from './local-time.ts';
import { checkMaterial, type OwnMaterials } from './materials.ts';

/** Phones' clocks run fast by minutes, not by more. */
const FUTURE_ALLOWED_MS = 300_000;
const MS_PER_S = 1000;

interface Timed {
  readonly happenedAt: string;
  readonly deviceAt?: string | undefined;
}

export interface PlacedInTime {
  readonly happenedAt: string;
  readonly localDate: string;
  readonly deviceAt: string | null;
  readonly skewS: number | null;
}

/**
 * When it happened by the server's clock. A phone that is off by more than five minutes gave both
 * times by the same wrong clock, so what it says is moved by what it is off.
 *
 * @throws {Refusal} bin-retired, date-before-bin or date-in-future
 */
export function placeInTime(bin: EntryBinRow, sent: Timed, now: Date): PlacedInTime {
  if (bin.state === 'retired') throw refuse('bin-retired');
  const skewS = sent.deviceAt === undefined ? null : Math.round((Date.parse(sent.deviceAt) - now.getTime()) / MS_PER_S);
  const correctionMs = skewS !== null && Math.abs(skewS) > SKEW_TOLD_S ? skewS * MS_PER_S : 0;
  const happenedMs = Date.parse(sent.happenedAt) - correctionMs;
  if (happenedMs > now.getTime() + FUTURE_ALLOWED_MS) throw refuse('date-in-future', fieldOf('is still to come'));
  const happened = new Date(Math.min(happenedMs, now.getTime()));
  const localDate = localDateAt(happened, bin.timeZone);
  // Text compares like dates only within four-figure years.
  if (happened.getUTCFullYear() < MIN_YEAR || localDate < bin.startedOn)
    throw refuse('date-before-bin', fieldOf('is before the bin was started'));
  return { happenedAt: happened.toISOString(), localDate, deviceAt: sent.deviceAt ?? null, skewS };
}

const MIN_YEAR = 1900;
const fieldOf = (message: string) => ({ errors: [{ pointer: '/happenedAt', message }] });

export function checkShift(store: Store, bin: EntryBinRow, shiftId: string | null): void {
  if (shiftId !== null && shiftSite(store, shiftId) !== bin.siteId) throw refuseField('/shiftId', "is not a shift at this bin's site");
}

export function checkZones(bin: EntryBinRow, detail: EntryDetail): void {
  const asked = detail.kind === 'feeding' ? [detail.zone] : detail.kind === 'check' ? detail.leftover.map((row) => row.zone) : [];
  if (asked.some((zone) => zone > bin.zones)) throw refuse('zone-unknown');
  if (new Set(asked).size < asked.length) throw refuseField('/leftover', 'names a zone twice');
}

export function checkMaterials(own: OwnMaterials, detail: EntryDetail): void {
  if (detail.kind !== 'feeding') return;
  detail.items.forEach((item, at) => {
    checkMaterial(own, item.materialId, `/items/${at}/materialId`);
  });
  if (detail.beddingMaterialId !== null) checkMaterial(own, detail.beddingMaterialId, '/beddingMaterialId');
}

export function checkContainers(store: Store, bin: EntryBinRow, detail: EntryDetail): void {
  if (detail.kind !== 'feeding') return;
  const named = detail.items.flatMap((item) => (item.containerId === null ? [] : [item.containerId]));
  if (named.length === 0) return;
  const here = containersAtSite(store, bin.siteId, named);
  const strange = detail.items.findIndex((item) => item.containerId !== null && !here.has(item.containerId));
  if (strange >= 0) throw refuseField(`/items/${strange}/containerId`, "is not a container of this bin's site");
}
