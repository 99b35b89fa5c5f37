/** Which bins' outlooks a change may have touched, so that nobody goes through all that a bin rests on because of another bin. */
import { type ChangeRow, changesAfter, firstChangeId, lastChangeId } from '../db/repositories/change.ts';
import type { Store } from '../db/store.ts';

/** Further behind than this, every bin counts as touched. */
const MOST_CHANGES = 1000;

/** Numbers that grow with each touch; the same number means that nothing has changed. */
export interface Touch {
  /** Of the log and the settings of this bin. */
  readonly own: number;
  /** Of what any bin may rest on: sites, shifts, stuff. */
  readonly shared: number;
}

interface Known {
  /** Number of the last change that was looked at. */
  readTo: number;
  touches: number;
  shared: number;
  readonly own: Map<string, number>;
}

const knownOf = new WeakMap<Store, Known>();
const FOR_ONE_BIN: ReadonlySet<ChangeRow['topic']> = new Set(['entry', 'bin']);
const FOR_ANY_BIN: ReadonlySet<ChangeRow['topic']> = new Set(['site', 'shift', 'stuff']);

export function touchOf(store: Store, binId: string): Touch {
  const known = knownOf.get(store) ?? { readTo: -1, touches: 0, shared: 0, own: new Map<string, number>() };
  knownOf.set(store, known);
  readOn(store, known);
  return { own: known.own.get(binId) ?? 0, shared: known.shared };
}

function readOn(store: Store, known: Known): void {
  const last = lastChangeId(store);
  if (last === known.readTo) return;
  const isNear = last > known.readTo && last - known.readTo <= MOST_CHANGES && firstChangeId(store) <= known.readTo + 1;
  const changes = isNear ? changesAfter(store, known.readTo, MOST_CHANGES) : null;
  known.readTo = last;
  known.touches += 1;
  if (changes === null) known.shared = known.touches;
  for (const { topic, subject } of changes ?? []) {
    if (FOR_ONE_BIN.has(topic)) known.own.set(subject, known.touches);
    if (FOR_ANY_BIN.has(topic)) known.shared = known.touches;
  }
}

/** Bins whose own log or settings a change after this one touched, the last one last. */
export function touchedAfter(store: Store, changeId: number): readonly string[] {
  const last = new Set<string>();
  for (const { topic, subject } of changesAfter(store, changeId, MOST_CHANGES)) {
    if (!FOR_ONE_BIN.has(topic)) continue;
    last.delete(subject);
    last.add(subject);
  }
  return [...last];
}
