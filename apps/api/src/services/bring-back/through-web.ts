/** An export brought back through the pages: only where no programme has begun, and only with the code from the console. */
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import type { BringBackFound, BringBackNew, BringBackUse } from '@middenry/contract';
import type * as z from 'zod';
import type { Context, Who } from '../../context.ts';
import type { ErasureList } from '../../db/keep/erasures.ts';
import { readMigrations } from '../../db/migrate.ts';
import { insertCredential } from '../../db/repositories/credential.ts';
import { listPersons } from '../../db/repositories/person.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import { photoDirOf } from '../../photos/shelf.ts';
import { refuse, refuseField } from '../../refusal.ts';
import { projectRoot } from '../../root.ts';
import type { ExportHead } from '../export/format.ts';
import { hashNewPassword } from '../new-password.ts';
import { resolveSession, type StartedSession, startSession } from '../session.ts';
import type { SetupCode } from '../setup-code.ts';
import { newestSchema, provenHead, returnDetail, withBrought } from './bring-back.ts';
import { alone, beginSending, endSending, sentOf, takePiece, zipFileOf } from './desk.ts';
import { moveIn } from './move-in.ts';
import { BringBackRefusal } from './refusal.ts';
import { REFUSAL_WORDS } from './refusal-words.ts';

type Entered = StartedSession & { readonly who: Who };
const migrationsDir = join(projectRoot, 'migrations');

/** @throws {Refusal} code-spent where a programme has begun, or none can be */
function openSetup({ store, setupCode }: Context): SetupCode {
  if (findProgramme(store) !== undefined || setupCode === undefined)
    throw refuse('code-spent', { detail: 'A programme has begun here already; an export goes into an empty place only.' });
  return setupCode;
}

export function beginBringBack(call: Context, { id, code, bytes }: z.output<typeof BringBackNew>) {
  openSetup(call).check(code);
  return sentOf(beginSending(call.store, id, bytes));
}

export function putPiece(call: Context, id: string, at: number, body: Readable) {
  openSetup(call);
  return alone(call.store, id, async (sent) => {
    await takePiece(call.store, sent, at, body);
    return sentOf(sent);
  });
}

export function checkBringBack(call: Context, id: string): Promise<z.output<typeof BringBackFound>> {
  openSetup(call);
  return alone(call.store, id, async ({ bytes, received }) => {
    if (received !== bytes)
      throw refuse('export-refused', { detail: REFUSAL_WORDS[call.language].unfinished(String(received), String(bytes)) });
    return foundIn(await saidPlainly(call, () => provenHead(zipFileOf(call.store), newestSchema(readMigrations(migrationsDir)), false)));
  });
}

function foundIn({ programme, madeAt, schema, rows, photos, photosLost }: ExportHead) {
  const count = (table: string) => rows[table] ?? 0;
  return {
    ...{ programme, madeAt, schema, photos, photosLost },
    ...{ entries: count('entry'), people: count('person'), sites: count('site'), bins: count('bin'), shifts: count('shift') },
  };
}

/** Makes a store of it beside this one first, so that whatever is wrong is known before a row of ours changes. */
export function takeBringBack(call: Context, id: string, use: z.output<typeof BringBackUse>): Promise<Entered> {
  const { store, now, config } = call;
  const code = openSetup(call);
  code.check(use.code);
  return alone(store, id, async ({ bytes, received }) => {
    if (received !== bytes)
      throw refuse('export-refused', { detail: REFUSAL_WORDS[call.language].unfinished(String(received), String(bytes)) });
    const email = use.email.toLowerCase();
    const secret = await hashNewPassword(use.password, [email]);
    const place = { file: `${store.sqlite.name}.returning`, photoDir: photoDirOf(config) };
    const options = { ...place, zip: zipFileOf(store), migrationsDir, copyDir: config.dataDir, now, isDemo: false, known: knownHere(call) };
    const started = await saidPlainly(call, () =>
      withBrought(options, (head, made) =>
        moveIn(store, made, place.photoDir, {
          before: () => {
            openSetup(call);
            if (!code.isOpen()) throw refuse('code-spent');
          },
          after: () => {
            const session = letOwnerIn(call, email, secret);
            call.audit('programme.returned', '', returnDetail(head, made.again));
            return session;
          },
        }),
      ),
    );
    code.spend();
    endSending(store);
    return started;
  });
}

/** The list beside the backups of this machine, which stays when the programme goes, or was put there by hand. */
function knownHere({ keeper }: Context): ErasureList[] {
  const list = keeper?.knownErasures() ?? null;
  return list === null ? [] : [list];
}

function letOwnerIn(call: Context, email: string, secret: string): Entered {
  const { store, now, clock } = call;
  const owner = listPersons(store).find((one) => one.owner && one.email === email);
  if (owner === undefined) throw refuseField('/email', 'must be the address of an owner in this export');
  insertCredential(store, { personId: owner.id, kind: 'password', secret, createdAt: now.toISOString() });
  // Without a line of its own in the audit, which tells of the return: so the next export is the same as this one.
  const started = startSession(store, clock, { personId: owner.id, kind: 'password' });
  const who = resolveSession(store, now, started.token);
  if (who === null) throw refuse('wrong-sign-in');
  return { ...started, who };
}

async function saidPlainly<T>({ language }: Context, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof BringBackRefusal)
      throw refuse('export-refused', { detail: `${error.in(language)} ${REFUSAL_WORDS[language].nothingChanged()}` });
    throw error;
  }
}
