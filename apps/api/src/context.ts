import type { Language, Role } from '@middenry/contract';
import type { Config } from './config.ts';
import type { Store } from './db/store.ts';
import type { Keeper } from './services/keeper.ts';
import type { Room } from './services/room.ts';
import type { SetupCode } from './services/setup-code.ts';
import type { Soundness } from './services/soundness.ts';
import type { SolverDesk } from './solver/desk.ts';

/** Time is an argument, so that a test or the demonstration can stand on any day. */
export interface Clock {
  now(): Date;
}

export const systemClock: Clock = { now: () => new Date() };

/** A clock that stands where it is put. */
export interface MovableClock extends Clock {
  at: Date;
}

export function movableClock(at: Date): MovableClock {
  return {
    at,
    now() {
      return this.at;
    },
  };
}

/** Who is asking, read afresh for every request: a role that was taken away is gone with the next one. */
export interface Who {
  readonly personId: string;
  readonly name: string;
  readonly role: Role;
  readonly owner: boolean;
  readonly isAdult: boolean;
  /** Empty: every site. */
  readonly siteIds: readonly string[];
  readonly sessionId: string;
  readonly sessionKind: 'password' | 'device' | 'pupil' | 'demo';
  /** A coordinator without an authenticator may set one up, and nothing else (criteria E3); never in the demonstration, where nobody is real. */
  readonly secondStepMissing: boolean;
}

/** What the app was built from, the same for every request. */
export interface Frame {
  readonly store: Store;
  readonly clock: Clock;
  readonly config: Config;
  /** Number of the schema that the store had when this process opened it. */
  readonly schema: number;
  readonly solver: SolverDesk;
  /** Waits to be typed in where a programme of one's own is to begin. */
  readonly setupCode?: SetupCode | undefined;
  /** Ends this demonstration once all answers are out, and begins a new one in its place. */
  readonly renewDemo?: (() => void) | undefined;
  /** Looks after backups and drills. */
  readonly keeper?: Keeper | undefined;
  /** Room kept back on the disk. */
  readonly room?: Room | undefined;
  /** Whether the store is sound. */
  readonly soundness?: Soundness | undefined;
}

/** What a service may use of one request. */
export interface Context extends Frame {
  readonly who: Who | null;
  /** What the reader of the answer speaks. */
  readonly language: Language;
  readonly requestId: string;
  /** The instant at which this request began. */
  readonly now: Date;
  today(timeZone: string): string;
  /** Says in the append-only audit who did what to whom; call it inside the same `write`. */
  audit(action: string, subject?: string, detail?: Readonly<Record<string, unknown>>): void;
  /** This client id was applied before: the answer is the stored thing, with 200. */
  again(): void;
}

/** A request of somebody signed in. */
export interface Signed extends Context {
  readonly who: Who;
}
