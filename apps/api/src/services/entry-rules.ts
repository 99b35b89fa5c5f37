/** What an entry must keep to before it is written. Each rule has its own code. */

import type { Signed } from '../context.ts';
import { isBelievable } from '../db/clock-sense.ts';
import { binForEntry, containersAtSite, type EntryBinRow, shiftSite } from '../db/repositories/entry-place.ts';
import type { EntryDetail } from '../db/repositories/entry-types.ts';
import type { Store } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { settlesBin } from './bin-state.ts';
import { SKEW_TOLD_S } from './entry-shape.ts';
import { checkHarvest } from './harvest.ts';
import { localDateAt } from './local-time.ts';
import { checkMaterial, materialsOf, type OwnMaterials } from './materials.ts';

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
 * times by the same wrong clock, so what it says is moved by what it is off. Where the server's own
 * clock cannot be right, the phone is taken at its word (criteria F14).
 *
 * @throws {Refusal} date-before-bin or date-in-future
 */
export function placeInTime(bin: EntryBinRow, sent: Timed, now: Date): PlacedInTime {
  const { at: happened, skewS } = byServersClock(sent, now, 'happenedAt');
  const localDate = localDateAt(happened, bin.timeZone);
  // Text compares like dates only within four-figure years.
  if (happened.getUTCFullYear() < MIN_YEAR || localDate < bin.startedOn)
    throw refuse('date-before-bin', fieldOf('is before the bin was started'));
  return { happenedAt: happened.toISOString(), localDate, deviceAt: sent.deviceAt ?? null, skewS };
}

/** @throws {Refusal} date-in-future */
export function byServersClock(
  { happenedAt, deviceAt }: Timed,
  now: Date,
  field: string,
): { readonly at: Date; readonly skewS: number | null } {
  // What a phone says is then nearer the truth, and an entry that is refused is lost.
  if (!isBelievable(now)) return { at: new Date(happenedAt), skewS: null };
  const skewS = deviceAt === undefined ? null : Math.round((Date.parse(deviceAt) - now.getTime()) / MS_PER_S);
  const correctionMs = skewS !== null && Math.abs(skewS) > SKEW_TOLD_S ? skewS * MS_PER_S : 0;
  const ms = Date.parse(happenedAt) - correctionMs;
  if (ms > now.getTime() + FUTURE_ALLOWED_MS)
    throw refuse('date-in-future', { errors: [{ pointer: `/${field}`, message: 'is still to come' }] });
  return { at: new Date(Math.min(ms, now.getTime())), skewS };
}

const MIN_YEAR = 1900;
const fieldOf = (message: string) => ({ errors: [{ pointer: '/happenedAt', message }] });

/** Everything an entry must keep to but its time. */
export function checkEntry(call: Signed, bin: EntryBinRow, entry: { readonly detail: EntryDetail; readonly shiftId: string | null }): void {
  const { store } = call;
  const { detail, shiftId } = entry;
  checkNotRetired(bin, detail);
  checkMaySettle(call, bin, detail);
  checkShift(store, bin, shiftId);
  checkZones(bin, detail);
  checkMaterials(materialsOf(store), detail);
  checkContainers(store, bin, detail);
  checkOtherBin(store, bin, detail);
  if (detail.kind === 'harvest') checkHarvest(store, bin, detail);
}

/** To let a bin rest or to retire it is for those who look after its site. */
function checkMaySettle({ who }: Signed, bin: EntryBinRow, detail: EntryDetail): void {
  if (!settlesBin(detail) || who.role === 'coordinator') return;
  const leadsHere = who.role === 'site-lead' && (who.siteIds.length === 0 || who.siteIds.includes(bin.siteId));
  if (!leadsHere) throw refuse('not-allowed');
}

function checkShift(store: Store, bin: EntryBinRow, shiftId: string | null): void {
  if (shiftId !== null && shiftSite(store, shiftId) !== bin.siteId) throw refuseField('/shiftId', "is not a shift at this bin's site");
}

function checkZones(bin: EntryBinRow, detail: EntryDetail): void {
  const asked = zonesNamed(detail);
  if (asked.some((zone) => zone > bin.zones)) throw refuse('zone-unknown');
  if (new Set(asked).size < asked.length) throw refuseField('/leftover', 'names a zone twice');
}

function zonesNamed(detail: EntryDetail): number[] {
  if (detail.kind === 'feeding') return [detail.zone];
  if (detail.kind === 'check') return detail.leftover.map((row) => row.zone);
  return detail.kind === 'care' && detail.zone !== null ? [detail.zone] : [];
}

function checkMaterials(own: OwnMaterials, detail: EntryDetail): void {
  if (detail.kind === 'care' && detail.materialId !== null) checkMaterial(own, detail.materialId, '/materialId');
  if (detail.kind !== 'feeding') return;
  detail.items.forEach((item, at) => {
    checkMaterial(own, item.materialId, `/items/${at}/materialId`);
  });
  if (detail.beddingMaterialId !== null) checkMaterial(own, detail.beddingMaterialId, '/beddingMaterialId');
}

function checkContainers(store: Store, bin: EntryBinRow, detail: EntryDetail): void {
  if (detail.kind !== 'feeding') return;
  const named = detail.items.flatMap((item) => (item.containerId === null ? [] : [item.containerId]));
  if (named.length === 0) return;
  const here = containersAtSite(store, bin.siteId, named);
  const strange = detail.items.findIndex((item) => item.containerId !== null && !here.has(item.containerId));
  if (strange >= 0) throw refuseField(`/items/${strange}/containerId`, "is not a container of this bin's site");
}

/** Worms come from and go to bins of ours that are there, and never to the same one. */
function checkOtherBin(store: Store, bin: EntryBinRow, detail: EntryDetail): void {
  if (detail.kind !== 'worms' || detail.otherBinId === null) return;
  if (detail.otherBinId === bin.id || binForEntry(store, detail.otherBinId) === null)
    throw refuseField('/otherBinId', 'is not another bin of ours');
}

/** Nothing more is noted on a retired bin but that it is woken again. */
function checkNotRetired(bin: EntryBinRow, detail: EntryDetail): void {
  const wakes = detail.kind === 'care' && detail.action === 'woken';
  if (bin.state === 'retired' && !wakes) throw refuse('bin-retired');
}
