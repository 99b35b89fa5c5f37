import type { ServerResponse } from 'node:http';
import { type ChangeRow, changesAfter, firstChangeId, lastChangeId } from '../db/repositories/change.ts';
import type { Store } from '../db/store.ts';

const HEARTBEAT_MS = 20_000;
/** Somebody further behind than this reads everything anew, which is cheaper for both. */
const MOST_CAUGHT_UP = 500;
/** A page that does not read what it is sent is let go; it comes back and catches up. */
const MOST_UNREAD_BYTES = 256 * 1024;
const RETRY_MS = 1000;

interface Listener {
  readonly stream: ServerResponse;
  readonly personId: string | null;
  /** Whether whoever listens may still do so. */
  readonly stillIn: () => boolean;
}

export interface Reader {
  readonly personId: string | null;
  readonly stillIn: () => boolean;
}

/** Tells open pages what changed. */
export interface Events {
  /** Begins a stream, first with everything after `lastId`, then with what comes. */
  open(stream: ServerResponse, headers: Readonly<Record<string, string>>, lastId: number | null, reader: Reader): void;
  /** The same as text, for whoever asks now and then instead of listening. */
  missed(lastId: number | null, personId: string | null): string;
  /** Tells that a bin is to be read again though nothing in the store changed; whoever was away has read it since. */
  again(binId: string): void;
  readonly listeners: number;
  close(): void;
}

/**
 * The changes come from a table that triggers fill, read after each commit: what was committed is
 * told, what was taken back is not, and whoever was away gets what they missed by its number.
 */
export function eventsOf(store: Store): Events {
  const listeners = new Set<Listener>();
  let told = lastChangeId(store);

  const drop = (listener: Listener) => {
    listeners.delete(listener);
    listener.stream.end();
  };
  const send = (listener: Listener, text: string) => {
    if (text === '') return;
    if (listener.stream.writableLength > MOST_UNREAD_BYTES) listener.stream.destroy();
    else listener.stream.write(text);
  };
  const tellSome = (): boolean => {
    const changes = changesAfter(store, told, MOST_CAUGHT_UP);
    if (changes.length === 0) return false;
    told = changes.at(-1)!.id;
    const textFor = textsOf(changes);
    const mayHaveLost = changes.some(({ topic }) => topic === 'people');
    for (const listener of listeners) {
      if (mayHaveLost && !listener.stillIn()) drop(listener);
      else send(listener, textFor(listener.personId));
    }
    return changes.length === MOST_CAUGHT_UP;
  };
  const tell = () => {
    while (tellSome());
  };
  const beat = () => {
    for (const listener of listeners) {
      if (listener.stillIn()) send(listener, ': still here\n\n');
      else drop(listener);
    }
  };
  const timer = setInterval(beat, HEARTBEAT_MS);
  timer.unref();
  store.afterCommit.add(tell);

  return {
    get listeners() {
      return listeners.size;
    },
    open(stream, headers, lastId, { personId, stillIn }) {
      const listener = { stream, personId, stillIn };
      stream.writeHead(200, headers);
      stream.write(`retry: ${RETRY_MS}\n\n${missedSince(store, { lastId, told, personId })}`);
      listeners.add(listener);
      stream.once('close', () => listeners.delete(listener));
      // A phone that went out of reach is no fault of ours.
      stream.on('error', () => listeners.delete(listener));
    },
    again(binId) {
      for (const listener of listeners) send(listener, `event: change\ndata: ${JSON.stringify({ topic: 'bin', subject: binId })}\n\n`);
    },
    missed: (lastId, personId) => missedSince(store, { lastId, told, personId }),
    close() {
      clearInterval(timer);
      store.afterCommit.delete(tell);
      for (const listener of listeners) drop(listener);
    },
  };
}

/** What to say first: what was missed, or that it is too much; and always the number to come back with. */
function missedSince(store: Store, at: { lastId: number | null; told: number; personId: string | null }): string {
  const { lastId, told, personId } = at;
  const here = `id: ${told}\nevent: here\ndata: {}\n\n`;
  if (lastId === null || lastId === told) return here;
  const isKnown = lastId < told && lastId + 1 >= firstChangeId(store);
  const missed = isKnown ? changesAfter(store, lastId, MOST_CAUGHT_UP + 1).filter(({ id }) => id <= told) : [];
  // A number from the future is one of another store, such as before a backup was restored.
  if (!isKnown || missed.length > MOST_CAUGHT_UP) return `id: ${told}\nevent: reset\ndata: {}\n\n`;
  return textsOf(missed)(personId) || here;
}

/** A message is nobody else's business, not even that there is one. */
const isFor = ({ topic, subject }: ChangeRow, personId: string | null): boolean => topic !== 'message' || subject === personId;

function textsOf(changes: readonly ChangeRow[]): (personId: string | null) => string {
  const hasMessages = changes.some(({ topic }) => topic === 'message');
  const forAll = hasMessages ? '' : changes.map(textOf).join('');
  return (personId) => {
    if (!hasMessages) return forAll;
    return changes
      .filter((change) => isFor(change, personId))
      .map(textOf)
      .join('');
  };
}

const textOf = ({ id, topic, subject }: ChangeRow): string => `id: ${id}\nevent: change\ndata: ${JSON.stringify({ topic, subject })}\n\n`;
