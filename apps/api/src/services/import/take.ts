/** Takes the ready rows of a spreadsheet, all or none, and takes all of them back within a day. */
import type { SheetImport } from '@middenry/contract';
import { castingsReadyOn, type ImportItem } from '@middenry/domain';
import type { Signed } from '../../context.ts';
import { entryById, insertEntry, undoEntry } from '../../db/repositories/entry.ts';
import type { EntryDetail } from '../../db/repositories/entry-types.ts';
import { deleteSheetImport, insertTakenRow, markImported, markImportUndone, takenRows } from '../../db/repositories/sheet-import.ts';
import { cancelShift, insertShift } from '../../db/repositories/shift.ts';
import { giveBack, noteAttendance, signUpById, takePlace } from '../../db/repositories/sign-up.ts';
import { write } from '../../db/store.ts';
import { refuse } from '../../refusal.ts';
import { derivedId } from '../id.ts';
import { startOf } from '../local-time.ts';
import { type OpenImport, openImport, openQuestions, readSheetImport, rowOrRefuse, UNDO_MS } from './sheet-imports.ts';

/** Nobody wrote down when: the middle of the day is off by the least. */
const USUAL_TIME = '12:00';
const SHIFT_TITLE = 'Hours from a spreadsheet';
const SHIFT_MINUTES_LEAST = 10;
const SHIFT_MINUTES_MOST = 720;
const PLACES_MOST = 60;

export function takeSheetImport(call: Signed, id: string): SheetImport {
  return write(call.store, () => {
    const row = rowOrRefuse(call, id);
    if (row.doneAt !== null) throw refuse('import-taken');
    const open = openImport(call, row);
    if (openQuestions(open.read.questions, open.answers).length > 0) throw refuse('answers-first');
    const fresh = open.ready.filter(({ isAgain }) => !isAgain);
    if (row.kind === 'hours') takeHours(call, open, fresh);
    else for (const one of fresh) takeEntry(call, open, one);
    const refused = open.read.rows.filter(({ state }) => state === 'refused');
    const again = open.ready.length - fresh.length;
    const rowsSkipped = open.read.rows.length - open.ready.length - refused.length;
    markImported(call.store, { id, at: call.now.toISOString(), refused: JSON.stringify({ again, refused }), rowsSkipped });
    call.audit('sheet.imported', id, { kind: row.kind, rows: fresh.length });
    return readSheetImport(call, id);
  });
}

type Ready = OpenImport['ready'][number];

function instantOf(call: Signed, { known }: OpenImport, item: ImportItem, placeId: string): string {
  const timeZone = known.zoneOf.get(placeId) ?? 'UTC';
  const { startsAt } = startOf({ localDate: item.day, localTime: item.time ?? USUAL_TIME, timeZone });
  return new Date(Math.min(startsAt.getTime(), call.now.getTime())).toISOString();
}

function takeEntry(call: Signed, open: OpenImport, { row, item, print }: Ready): void {
  if (item.kind === 'hours') throw new TypeError('Cannot note hours as an entry: current value is hours');
  const id = derivedId(open.row.id, `row ${row}`);
  const core = { id, binId: item.binId, personId: item.personId, shiftId: null, note: item.note, receivedAt: call.now.toISOString() };
  const when = { happenedAt: instantOf(call, open, item, item.binId), localDate: item.day, deviceAt: null, skewS: null };
  insertEntry(call.store, { ...core, ...when }, detailOf(item));
  insertTakenRow(call.store, { importId: open.row.id, row, print, entryId: id, signUpId: null });
}

function detailOf(item: Exclude<ImportItem, { kind: 'hours' }>): EntryDetail {
  switch (item.kind) {
    case 'feedings': {
      const { materialId, grams, how, typedValue, typedUnit, zone } = item;
      const portion = {
        materialId,
        grams,
        how,
        typedValue,
        typedUnit,
        preparation: 'chopped',
        containerId: null,
        containerCount: null,
        tareG: 0,
      } as const;
      return { kind: 'feeding', zone, beddingG: 0, beddingMaterialId: null, waterG: 0, items: [portion] };
    }
    case 'harvests': {
      const { grams, how, typedValue, typedUnit, destination, destinationNote } = item;
      const readyOn = destination === 'curing' ? castingsReadyOn(item.day) : null;
      return {
        ...{ kind: 'harvest', grams, how, typedValue, typedUnit, destination, destinationNote, readyOn, buckets: [] },
        ...{ screened: null, volumeMl: null, squeeze: null, dishMg: null, wetMg: null, dryMg: null },
      };
    }
    case 'checks': {
      const { squeeze, smell, bedTempC, ph, worms } = item;
      return { kind: 'check', squeeze, smell, bedTempC, ph, worms, leftover: [], visitors: [] };
    }
    default:
      return item satisfies never;
  }
}

/** Hours given hang on shifts; those of a spreadsheet get one a site and day, and one more for who wrote down two that day. */
function takeHours(call: Signed, open: OpenImport, rows: readonly Ready[]): void {
  const groups = new Map<
    string,
    { readonly people: Set<string>; readonly rows: (Ready & { item: Extract<ImportItem, { kind: 'hours' }> })[] }
  >();
  for (const one of rows) {
    const { item } = one;
    if (item.kind !== 'hours') continue;
    for (let nth = 1; ; nth += 1) {
      const key = `${item.siteId} ${item.day} ${nth}`;
      const group = groups.get(key) ?? { people: new Set<string>(), rows: [] };
      if (group.people.has(item.personId) || group.people.size === PLACES_MOST) continue;
      group.people.add(item.personId);
      group.rows.push({ ...one, item });
      groups.set(key, group);
      break;
    }
  }
  for (const [key, group] of groups) {
    const [first] = group.rows;
    if (first === undefined) continue;
    const { siteId, day } = first.item;
    const shiftId = derivedId(open.row.id, key);
    const longest = Math.max(...group.rows.map(({ item }) => item.minutes));
    insertShift(call.store, {
      ...{ id: shiftId, seriesId: null, siteId, title: SHIFT_TITLE, localDate: day, localTime: first.item.time ?? USUAL_TIME },
      ...{
        timeZone: open.known.zoneOf.get(siteId) ?? 'UTC',
        minutes: Math.min(SHIFT_MINUTES_MOST, Math.max(SHIFT_MINUTES_LEAST, longest)),
      },
      ...{ places: group.people.size, pupilPlaces: 0, note: '', createdAt: call.now.toISOString() },
    });
    for (const { row, item, print } of group.rows) {
      const signUpId = derivedId(open.row.id, `row ${row}`);
      takePlace(call.store, { id: signUpId, shiftId, personId: item.personId, at: call.now.toISOString(), keepsOffers: 0 });
      noteAttendance(call.store, { id: signUpId, attended: 1, minutes: item.minutes });
      insertTakenRow(call.store, { importId: open.row.id, row, print, entryId: null, signUpId });
    }
  }
}

/** Before the rows were taken it gives the file up; afterwards it takes every one of them back. */
export function undoSheetImport(call: Signed, id: string): void {
  write(call.store, () => {
    const row = rowOrRefuse(call, id);
    if (row.doneAt === null) {
      deleteSheetImport(call.store, id);
      return;
    }
    if (row.undoneAt !== null) throw refuse('already-undone');
    if (call.now.getTime() - Date.parse(row.doneAt) > UNDO_MS) throw refuse('too-late-to-undo');
    const at = call.now.toISOString();
    for (const { entryId, signUpId } of takenRows(call.store, id)) {
      const entry = entryId === null ? null : entryById(call.store, entryId);
      if (entry !== null && entry.undoneAt === null) undoEntry(call.store, { row: entry, at, personId: call.who.personId });
      const signUp = signUpId === null ? null : signUpById(call.store, signUpId);
      if (signUp === null) continue;
      giveBack(call.store, signUp.id, at);
      cancelShift(call.store, signUp.shiftId, at);
    }
    markImportUndone(call.store, id, at);
    call.audit('sheet.undone', id, { kind: row.kind });
  });
}
