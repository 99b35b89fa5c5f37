/** What is told by the clock alone. */
import type { Context, Frame } from '../../context.ts';
import { localDateAt } from '../local-time.ts';
import { USUAL_LANGUAGE } from '../words/languages.ts';
import { tellDigest } from './digest.ts';
import { watchAdults } from './needs-adult.ts';
import { remind } from './remind.ts';
import { watchUpkeep } from './upkeep.ts';

/** Everything told by the clock is told within half a minute of its time. */
const LOOK_MS = 20_000;

/** Does all that is due now; says how many messages are new. */
export async function tellDue(frame: Frame): Promise<number> {
  const now = frame.clock.now();
  const told = remind(frame.store, now) + watchAdults(frame.store, now);
  const call = byItself(frame, now);
  return told + (await tellDigest(call)) + watchUpkeep(call);
}

/** Goes on until it is stopped with what it returns. */
export function keepTelling(frame: Frame): () => void {
  let running = false;
  const look = async () => {
    if (running) return;
    running = true;
    // A full disk is told elsewhere; the next look tries again.
    await tellDue(frame).catch(() => undefined);
    running = false;
  };
  const timer = setInterval(() => void look(), LOOK_MS);
  timer.unref();
  return () => clearInterval(timer);
}

/** As a request of nobody, for services that read. */
const byItself = (frame: Frame, now: Date): Context => ({
  ...frame,
  now,
  who: null,
  language: USUAL_LANGUAGE,
  requestId: '',
  today: (timeZone) => localDateAt(now, timeZone),
  audit: () => undefined,
  again: () => undefined,
});
