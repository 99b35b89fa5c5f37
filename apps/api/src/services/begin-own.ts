import type { SetupUse } from '@middenry/contract';
import type * as z from 'zod';
import type { Context, Signed, Who } from '../context.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import { write } from '../db/store.ts';
import { Refusal, refuse, refuseField } from '../refusal.ts';
import { insertBeginning } from './begin.ts';
import { addBin } from './bins.ts';
import { hashNewPassword } from './new-password.ts';
import { type StartedSession, startSession } from './session.ts';
import { addSite, isTimeZone } from './sites.ts';

export const isSetupOpen = ({ store, setupCode }: Context): boolean => findProgramme(store) === undefined && (setupCode?.isOpen() ?? false);

type Setup = z.output<typeof SetupUse>;

/** Makes programme, owner, first site and first bins, all or nothing, and uses the code up. */
export async function beginOwn(context: Context, body: Setup): Promise<StartedSession & { who: Who }> {
  const { setupCode, store } = context;
  if (findProgramme(store) !== undefined || setupCode === undefined)
    throw refuse('code-spent', { detail: 'A programme has begun here already.' });
  setupCode.check(body.code);
  if (!isTimeZone(body.programme.timeZone)) throw refuseField('/programme/timeZone', 'must be a time zone like Europe/London');
  const secret = await hashNewPassword(body.coordinator.password, [body.coordinator.name, body.coordinator.email, body.programme.name]);
  return write(store, () => {
    // Hashing took a moment in which somebody else may have been quicker.
    if (findProgramme(store) !== undefined || !setupCode.isOpen()) throw refuse('code-spent');
    const { password: _password, ...coordinator } = body.coordinator;
    const person = { ...coordinator, email: coordinator.email.toLowerCase() };
    insertBeginning(store, context.now, { programme: { ...body.programme, id: body.site.id, isDemo: false }, coordinator: person }, secret);
    const session = startSession(store, context.clock, { personId: person.id, kind: 'password' });
    const who = ownerOf(person.id, person.name, session.sessionId);
    addPlaces({ ...context, who }, body);
    context.audit('programme-begun', body.site.id);
    setupCode.spend();
    return { ...session, who };
  });
}

function addPlaces(context: Signed, { site, bins, programme }: Setup): void {
  below('/site', () => addSite(context, { ...site, timeZone: programme.timeZone }));
  for (const [at, bin] of bins.entries()) below(`/bins/${at}`, () => addBin(context, { ...bin, siteId: site.id }));
}

/** A refusal of a part points into the whole. */
function below(prefix: string, work: () => unknown): void {
  try {
    work();
  } catch (error) {
    if (!(error instanceof Refusal) || error.extra.errors === undefined) throw error;
    const errors = error.extra.errors.map(({ pointer, message }) => ({ pointer: prefix + pointer, message }));
    throw refuse(error.code, { ...error.extra, errors });
  }
}

const ownerOf = (personId: string, name: string, sessionId: string): Who => ({
  personId,
  name,
  role: 'coordinator',
  owner: true,
  isAdult: true,
  siteIds: [],
  sessionId,
  sessionKind: 'password',
  secondStepMissing: true,
});
