/** The queue of mail, worked off in the background: nobody waits for a mail server. */
import type { Clock } from '../../context.ts';
import { isBelievable } from '../../db/clock-sense.ts';
import {
  dropStaleMail,
  dueMail,
  endMail,
  failInterruptedMail,
  type MailRow,
  mailAlong,
  mailById,
  takeMail,
  tryLater,
} from '../../db/repositories/mail.ts';
import { messageById } from '../../db/repositories/message.ts';
import { type Store, write } from '../../db/store.ts';
import { GATHERED, GATHERED_MS } from '../messages/tell.ts';
import { hashOf, newToken } from '../secret.ts';
import { isStillTold, type LetterParts, letterOf, lettersAsOne } from './letter.ts';
import type { Outcome, Sender } from './sender.ts';

export interface MailerOptions {
  readonly store: Store;
  readonly clock: Clock;
  readonly sender: Sender;
  readonly from: string;
  readonly publicUrl: string | undefined;
}

export interface Mailer {
  /** Sends what is due now; says how many were handed over. Never two at once. */
  look(): Promise<number>;
  start(): void;
  stop(): void;
}

const LOOK_MS = 5000;
const MINUTE_MS = 60_000;
const AT_ONCE = 3;
const MOST_IN_ONE_LOOK = 30;
/** How long one mail waits after it was put off for the first, second … time. */
const WAIT_MINUTES = [1, 2, 5, 15, 30, 60];
/** While the server does not answer, one mail in so long finds out whether it does again. */
const DOWN_MS = [30_000, 60_000, 120_000, 300_000];
const DOWN_URGENT_MS = 30_000;

export function mailerOf(options: MailerOptions): Mailer {
  const { store, clock } = options;
  let down = { times: 0, since: 0 };
  let running: Promise<number> | null = null;
  let timer: NodeJS.Timeout | undefined;

  const isResting = (urgent: boolean): boolean => {
    if (down.times === 0) return false;
    const restMs = DOWN_MS[Math.min(down.times, DOWN_MS.length) - 1]!;
    const passedMs = clock.now().getTime() - down.since;
    // A clock that was put back must not make it rest for ever.
    return passedMs >= 0 && passedMs < (urgent ? Math.min(restMs, DOWN_URGENT_MS) : restMs);
  };

  const look = async (): Promise<number> => {
    const now = clock.now();
    if (!isBelievable(now)) return 0;
    write(store, () => dropStaleMail(store, now.toISOString()));
    const due = dueMail(store, now.toISOString(), MOST_IN_ONE_LOOK);
    if (due.length === 0 || isResting(due[0]!.urgent === 1)) return 0;
    let sent = 0;
    const rest = [...due];
    // While the server was down, one mail goes ahead of the others to see.
    const width = down.times > 0 ? 1 : AT_ONCE;
    const worker = async () => {
      for (let row = rest.shift(); row !== undefined; row = rest.shift()) {
        const outcome = await sendOne(options, row);
        if (outcome === 'down') {
          down = { times: down.times + 1, since: clock.now().getTime() };
          rest.length = 0;
        } else if (outcome !== 'unsent') down = { times: 0, since: 0 };
        if (outcome === 'handed-over') sent += 1;
      }
    };
    await Promise.all(Array.from({ length: width }, worker));
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
      write(store, () => failInterruptedMail(store, clock.now().toISOString()));
      // What goes wrong here is kept with the mail; a full disk is told elsewhere, and the next look tries again.
      timer = setInterval(() => void once().catch(() => undefined), LOOK_MS);
      timer.unref();
    },
    stop: () => clearInterval(timer),
  };
}

type Sent = 'handed-over' | 'answered' | 'unsent' | 'down';

async function sendOne(options: MailerOptions, row: MailRow): Promise<Sent> {
  const { store, clock, sender } = options;
  // It may have gone along with another one since the list was made.
  if (mailById(store, row.id)?.state !== 'waiting') return 'unsent';
  const all = gatheredWith(options, row);
  const letter = all.length > 1 ? lettersAsOne(all) : all[0] ? letterOf(all[0]) : null;
  if (letter === null) {
    write(store, () => drop(options, row));
    return 'unsent';
  }
  if (!write(store, () => all.every((parts) => takeMail(store, parts.row.id, replyHashOf(parts))))) return 'unsent';
  const outcome = await sender.send(letter);
  write(store, () => {
    for (const parts of all) note(store, parts.row, outcome, clock.now());
  });
  if (outcome.how === 'later' && outcome.serverDown) return 'down';
  return outcome.how === 'handed-over' ? 'handed-over' : 'answered';
}

/** A mail with all that came in the same burst; what is no longer so is let go on the way. */
function gatheredWith(options: MailerOptions, row: MailRow): LetterParts[] {
  const { store, clock, from, publicUrl } = options;
  const partsOf = (one: MailRow): LetterParts => ({ store, row: one, publicUrl, replyToken: newToken(), from });
  const message = row.kind === 'message' && row.urgent === 0 ? messageById(store, row.messageId ?? '') : null;
  if (message === null || !GATHERED.includes(message.kind)) return [partsOf(row)];
  const until = new Date(clock.now().getTime() + GATHERED_MS).toISOString();
  const all = [row, ...mailAlong(store, row, { kinds: GATHERED, until })].map(partsOf);
  const [told, gone] = [all.filter(isStillTold), all.filter((parts) => !isStillTold(parts))];
  write(store, () => {
    for (const parts of gone) drop(options, parts.row);
  });
  return told;
}

const drop = ({ store, clock }: MailerOptions, row: MailRow): void =>
  endMail(store, row.id, { state: 'dropped', at: clock.now().toISOString(), error: 'no longer so' });

const replyHashOf = ({ row, publicUrl, replyToken }: LetterParts): string | null =>
  row.kind === 'message' && publicUrl !== undefined ? hashOf(replyToken) : null;

function note(store: Store, row: MailRow, outcome: Outcome, now: Date): void {
  if (outcome.how === 'later') {
    const minutes = outcome.serverDown ? 0 : WAIT_MINUTES[Math.min(row.tries, WAIT_MINUTES.length - 1)]!;
    tryLater(store, row.id, { nextTryAt: new Date(now.getTime() + minutes * MINUTE_MS).toISOString(), error: outcome.error });
    return;
  }
  endMail(store, row.id, { state: outcome.how, at: now.toISOString(), error: outcome.how === 'failed' ? outcome.error : '' });
}
