/**
 * A damaged store takes no message and no mail, so the mail about it goes out past its queue, once for each damage; who
 * has it stands in a small file beside the store (criteria F11, F31).
 */
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { Clock } from '../../context.ts';
import { messageSetting } from '../../db/repositories/message-setting.ts';
import { listPersons } from '../../db/repositories/person.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import type { Store } from '../../db/store.ts';
import type { Damage, Soundness } from '../soundness.ts';
import { wordsFor } from '../words/languages.ts';
import type { Letter, Sender } from './sender.ts';

const LOOK_MS = 30_000;
/** Who may be told is read anew so often while the store is sound: of a damaged one it may not be readable. */
const KNOWN_MS = 10 * 60_000;

export interface DamageMailOptions {
  readonly store: Store;
  readonly clock: Clock;
  readonly soundness: Soundness;
  readonly sender: Sender;
  readonly from: string;
}

export interface DamageMail {
  /** Says how many mails were handed over. */
  look(): Promise<number>;
  start(): void;
  stop(): void;
}

interface Told {
  readonly since: string;
  /** Ids of whoever has it, or whose server will not take it. */
  readonly people: readonly string[];
}

type ToTell = ReturnType<typeof coordinatorsOf>;

export function damageMailOf({ store, clock, soundness, sender, from }: DamageMailOptions): DamageMail {
  const noteFile = `${store.sqlite.name}.damage-told`;
  let known: { readonly atMs: number; readonly all: ToTell } | null = null;
  let running: Promise<number> | null = null;
  let timer: NodeJS.Timeout | undefined;

  const refresh = () => {
    if (known === null || Math.abs(clock.now().getTime() - known.atMs) >= KNOWN_MS)
      known = { atMs: clock.now().getTime(), all: coordinatorsOf(store) };
  };
  const look = async (): Promise<number> => {
    const damage = soundness.damage();
    if (damage === null) {
      forgetMended(noteFile, soundness.lastSoundAt());
      refresh();
      return 0;
    }
    // Found before anybody was known: what can still be read of it is better than nothing.
    if (known === null) refresh();
    const before = toldIn(noteFile);
    const people = new Set(before?.people ?? []);
    let sent = 0;
    for (const one of known!.all.filter(({ personId }) => !people.has(personId))) {
      const outcome = await sender.send(letterOf(one, damage, from));
      if (outcome.how === 'later') continue;
      people.add(one.personId);
      if (outcome.how === 'handed-over') sent += 1;
      const told: Told = { since: before?.since ?? damage.since, people: [...people] };
      writeFileSync(noteFile, JSON.stringify(told), { mode: 0o600 });
    }
    return sent;
  };
  const once = () => {
    running ??= look().finally(() => {
      running = null;
    });
    return running;
  };
  return {
    look: once,
    start() {
      // A mail server that is away is asked again at the next look.
      const tick = () => void once().catch(() => undefined);
      tick();
      timer = setInterval(tick, LOOK_MS);
      timer.unref();
    },
    stop: () => clearInterval(timer),
  };
}

/** Each coordinator who gets mail, with the words that they will need. */
function coordinatorsOf(store: Store) {
  const programme = findProgramme(store);
  if (programme === undefined || programme.isDemo) return [];
  return listPersons(store)
    .filter(({ role, disabled }) => role === 'coordinator' && !disabled)
    .flatMap(({ id, name }) => {
      const { mail, address, confirmedAt } = messageSetting(store, id);
      if (mail !== 1 || address === null || confirmedAt === null) return [];
      return [{ personId: id, name, address, programme: programme.name, words: wordsFor(store, id) }];
    });
}

function letterOf({ personId, name, address, programme, words }: ToTell[number], damage: Damage, from: string): Letter {
  const { subject, text } = words.damageMail(programme, damage.since.slice(0, 16).replace('T', ' '), damage.newestBackup);
  return {
    ...{ to: address, subject, text: `${words.greeting(name)}\n\n${text}\n`, stopUrl: undefined },
    messageId: `<damage-${Date.parse(damage.since)}-${personId}@${from.split('@')[1]}>`,
  };
}

/** null: nobody was told yet, or nobody can say. */
function toldIn(noteFile: string): Told | null {
  try {
    return existsSync(noteFile) ? (JSON.parse(readFileSync(noteFile, 'utf8')) as Told) : null;
  } catch {
    return null;
  }
}

/** A check after it that found nothing says that another store is in its place; the next damage is news again. */
function forgetMended(noteFile: string, soundAt: string | null): void {
  const told = toldIn(noteFile);
  if (told !== null && soundAt !== null && soundAt > told.since) rmSync(noteFile, { force: true });
}
