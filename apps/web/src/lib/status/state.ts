import type { Answer } from '../api/calls.ts';
import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';

export type Status = Answer<'readStatus'>;
/** In the order in which they would hurt. */
const PARTS = ['soundness', 'backup', 'disk', 'clock', 'drill', 'mail'] as const;
export type Part = (typeof PARTS)[number];

/** What somebody has to see to, the most urgent first. */
export function needy(status: Status): readonly Part[] {
  const at = (state: Status[Part]['state']) => PARTS.filter((part) => status[part].state === state);
  return [...at('act'), ...at('look')];
}

/** What the machine itself says about it, where it says anything. */
export function saidBy(status: Status, part: Part): string | null {
  switch (part) {
    case 'backup':
      return status.backup.fault;
    case 'drill':
      return status.drill.words;
    case 'soundness':
      return status.soundness.damage;
    case 'mail':
      return status.mail.lastError;
    default:
      return null;
  }
}

const MB = 1_000_000;
const SECONDS_PER_MINUTE = 60;

/** Everything in figures, as name and value. */
export function factsOf(status: Status, f: Format, isDemo: boolean): readonly (readonly [string, string])[] {
  const w = words.status;
  const { backup, drill, soundness, disk, mail, phones } = status;
  const when = (instant: string) => `${f.date(f.localDayOf(instant))}, ${f.time(instant)}`;
  const whenOrNot = (instant: string | null) => (instant !== null ? when(instant) : isDemo ? w.notNeeded : w.never);
  const size = (bytes: number) => w.size(f.short(bytes / MB));
  return [
    [w.names.backup, whenOrNot(backup.lastAt)],
    [
      w.names.drill,
      drill.lastAt === null ? whenOrNot(null) : drill.state === 'act' ? w.drillBad(when(drill.lastAt)) : w.drillOk(when(drill.lastAt)),
    ],
    [w.names.soundness, soundness.lastAt === null ? w.never : when(soundness.lastAt)],
    [w.names.store, size(disk.storeBytes)],
    [w.names.free, size(disk.freeBytes)],
    ...(mail.configured
      ? ([
          [w.names.mailWaiting, f.number(mail.waiting)],
          [w.names.mailFailed, f.number(mail.failed)],
        ] as const)
      : ([[w.toMail, words.mail.notSet]] as const)),
    [w.names.clock, clockWords(status.clock, f)],
    [w.names.phones, f.number(phones.quiet)],
  ];
}

function clockWords({ phones, behindSeconds, state }: Status['clock'], f: Format): string {
  const w = words.status;
  if (behindSeconds === null) return phones === 0 ? w.clockNoPhones : w.clockFew;
  if (state === 'well') return w.clockAgrees;
  return w.clockOff(f.minutes(Math.round(Math.abs(behindSeconds) / SECONDS_PER_MINUTE)), behindSeconds > 0);
}

/** By how many minutes this device and the server differ, or null when they agree well enough. */
export async function minutesApart(ask: typeof fetch, nowMs: () => number): Promise<number | null> {
  const from = nowMs();
  const said = (await ask('/livez', { cache: 'no-store' }).catch(() => null))?.headers.get('date');
  const serverMs = Date.parse(said ?? '');
  // The answer was written somewhere between asking and hearing.
  const apart = Math.abs(serverMs - (from + nowMs()) / 2) / (SECONDS_PER_MINUTE * 1000);
  return apart >= 2 ? Math.round(apart) : null;
}
