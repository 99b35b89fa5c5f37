import type { ChangeEvent } from '@middenry/contract';

/** The part of the browser's EventSource that is used; a test brings its own. */
export interface Stream {
  /** 2: given up; the browser comes back by itself from anything else. */
  readonly readyState: number;
  addEventListener(type: string, listener: (event: { data?: string }) => void): void;
  close(): void;
}
export interface LiveOptions {
  readonly open: () => Stream;
  readonly onChange: (topics: ReadonlySet<ChangeEvent['topic'] | 'all'>) => void;
  readonly onState: (live: boolean) => void;
  readonly wait?: (run: () => void, ms: number) => unknown;
}

/** Changes within this time are shown together, so that many at once are one reading. */
export const GATHER_MS = 250;
/** A browser gives up on an answer that is no stream, as while the server starts; then we try again. */
export const RETRY_MS = 5000;
const GIVEN_UP = 2;

/**
 * Listens to what changes elsewhere. The browser reconnects by itself and says which change it saw
 * last; where the server says `reset`, everything is read anew. Coming back after a break is a
 * reset too, unless the server resumes.
 *
 * @returns How to stop listening
 */
export function followChanges(options: LiveOptions): () => void {
  const wait = options.wait ?? setTimeout;
  let gathered = new Set<ChangeEvent['topic'] | 'all'>();
  let stopped = false;
  const gather = (topic: ChangeEvent['topic'] | 'all') => {
    if (gathered.size === 0) wait(flush, GATHER_MS);
    gathered.add(topic);
  };
  const flush = () => {
    const topics = gathered;
    gathered = new Set();
    if (!stopped) options.onChange(topics);
  };
  let stream: Stream;
  const connect = (again: boolean) => {
    if (stopped) return;
    stream = options.open();
    stream.addEventListener('open', () => {
      options.onState(true);
      if (again) gather('all');
    });
    stream.addEventListener('error', () => {
      options.onState(false);
      if (stream.readyState === GIVEN_UP) wait(() => connect(true), RETRY_MS);
    });
    stream.addEventListener('reset', () => gather('all'));
    stream.addEventListener('change', (event) => gather(topicOf(event.data)));
  };
  connect(false);
  return () => {
    stopped = true;
    stream.close();
  };
}

function topicOf(data: string | undefined): ChangeEvent['topic'] | 'all' {
  try {
    return (JSON.parse(data ?? '') as ChangeEvent).topic ?? 'all';
  } catch {
    return 'all';
  }
}

const NEEDS: Readonly<Record<string, readonly (ChangeEvent['topic'] | 'all')[]>> = {
  'app:board': ['entry', 'bin', 'site', 'shift', 'all'],
  'app:bin': ['entry', 'bin', 'all'],
  'app:shifts': ['shift', 'people', 'all'],
  'app:session': ['programme', 'people', 'all'],
};

/** Which loads lean on what changed. */
export function staleAfter(topics: ReadonlySet<string>): string[] {
  return Object.entries(NEEDS).flatMap(([load, needs]) => (needs.some((n) => topics.has(n)) ? [load] : []));
}
