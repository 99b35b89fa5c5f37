/** A programme of one's own on an empty machine: from the code that the server prints to a garden with a harvest in it. */
import { bytesOf, hotp } from '../../apps/api/src/services/totp.ts';
import { cookieIn, freshId, PASSWORD } from '../cast.ts';

export const email = 'wanda@example.org';
export const binId = freshId();
export const harvest = () => ({ id: freshId(), binId, happenedAt: new Date().toISOString(), massKg: 1.25, destination: 'beds' });

/** @param url where the server listens */
export async function ask(url: string, method: string, path: string, body?: unknown, cookie?: string) {
  // A server that was stopped and started again under the same address does not know the connections of the one before.
  const headers: Record<string, string> = { connection: 'close' };
  if (body !== undefined) headers['content-type'] = 'application/json';
  if (cookie !== undefined) headers.cookie = cookie;
  const answer = await fetch(url + path, { method, headers, ...(body === undefined ? {} : { body: JSON.stringify(body) }) });
  const text = await answer.text();
  const set = answer.headers.get('set-cookie');
  return {
    status: answer.status,
    body: text === '' ? null : JSON.parse(text),
    cookie: set === null ? '' : cookieIn({ headers: { 'set-cookie': set } }),
  };
}

/** @returns recovery codes */
export async function setSecondStep(url: string, cookie: string): Promise<string[]> {
  const { secret } = (await ask(url, 'POST', '/api/totp', {}, cookie)).body;
  const code = hotp(bytesOf(secret), Math.floor(Date.now() / 30_000));
  return (await ask(url, 'PUT', '/api/totp', { code }, cookie)).body.recoveryCodes;
}

/** @param printed what the server has said since it was started */
export async function beginGarden(url: string, printed: string): Promise<{ cookie: string; recoveryCodes: string[] }> {
  const code = /setup code (\S{4}-\S{4}),/.exec(printed)![1];
  const began = await ask(url, 'POST', '/api/setup', {
    code,
    programme: { name: 'Orchard End', timeZone: 'Europe/London' },
    coordinator: { id: freshId(), name: 'Wanda Reed', email, password: PASSWORD },
    site: { id: freshId(), name: 'Orchard' },
    bins: [
      {
        ...{ id: binId, code: 'O1', name: 'First tote', kind: 'tote', areaM2: 0.2, depthM: 0.35, zones: 2, startedOn: '2026-01-10' },
        ...{ wormsKg: 0.5, bedWaterKg: 4, bed: [{ materialId: 'cardboard_corrugated', massKg: 2 }] },
      },
    ],
  });
  if (began.status !== 201) throw new Error(`the setup answered ${began.status}: ${JSON.stringify(began.body)}`);
  const recoveryCodes = await setSecondStep(url, began.cookie);
  const noted = await ask(url, 'POST', '/api/harvests', harvest(), began.cookie);
  if (noted.status !== 201) throw new Error(`the first harvest answered ${noted.status}: ${JSON.stringify(noted.body)}`);
  return { cookie: began.cookie, recoveryCodes };
}
