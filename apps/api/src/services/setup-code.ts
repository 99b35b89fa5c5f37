import type { Clock } from '../context.ts';
import { refuse } from '../refusal.ts';
import { hashOf, newCode, sameHash } from './secret.ts';

const LIFE_MS = 3_600_000;
const TRIES = 10;

/** The one-time code that begins a programme; it lives in this process only and is printed once. */
export interface SetupCode {
  /** Whether it can still be used. */
  isOpen(): boolean;
  /** @throws {Refusal} when it is wrong, used, run out or tried too often */
  check(typed: string): void;
  spend(): void;
}

/** Makes a code that is dead after an hour, after use, or after ten wrong tries. */
export function newSetupCode(clock: Clock): { readonly words: string; readonly code: SetupCode } {
  const text = newCode(8);
  const hash = hashOf(text);
  const endsMs = clock.now().getTime() + LIFE_MS;
  let triesLeft = TRIES;
  const isOpen = () => triesLeft > 0 && clock.now().getTime() < endsMs;
  const code: SetupCode = {
    isOpen,
    check(typed) {
      if (!isOpen()) throw refuse('code-spent', { detail: 'The setup code has run out; start the server again for a new one.' });
      if (sameHash(hashOf(typed.toUpperCase().replace(/[^A-Z0-9]/g, '')), hash)) return;
      triesLeft -= 1;
      throw refuse('code-wrong');
    },
    spend() {
      triesLeft = 0;
    },
  };
  return { words: `${text.slice(0, 4)}-${text.slice(4)}`, code };
}
