import type { Frame } from '../context.ts';
import type { SessionKind } from '../db/repositories/session.ts';
import { type Beginning, beginProgramme } from './begin.ts';
import { startSession } from './session.ts';
import { cookieName } from './session-cookie.ts';

/** What code in this process may do without a request of its own: begin a programme, and act as somebody. */
export interface InProcess extends Frame {
  /** Method and path of every route that the framework was given below /api and beside it. */
  readonly registered: readonly string[];
  begin(beginning: Beginning): Promise<void>;
  /** A cookie header that signs in as this person, for `inject`. */
  cookieOf(personId: string, kind?: SessionKind): string;
}

export function inProcessOf(frame: Frame, registered: readonly string[]): InProcess {
  return {
    ...frame,
    registered,
    begin: (beginning) => beginProgramme(frame.store, frame.clock.now(), beginning),
    cookieOf: (personId, kind = 'device') => {
      const { token } = startSession(frame.store, frame.clock, { personId, kind });
      return `${cookieName(frame.config)}=${token}`;
    },
  };
}
