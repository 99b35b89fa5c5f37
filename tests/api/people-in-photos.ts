/** Consents given and photos sent, as the tests of people in photos need them. */
import { expect } from 'vitest';
import { type Answer, BINS, type Cast, freshId, type PersonKey } from '../cast.ts';
import { consent } from './hostile/consent-samples.ts';
import { SMALL_JPEG } from './hostile/photo-samples.ts';

/** @param castNow The cast of the test that runs: each begins with another. */
export function peopleInPhotos(castNow: () => Cast) {
  async function give(who: PersonKey, personId: string, more: Record<string, unknown> = {}): Promise<string> {
    const body = consent(freshId(), personId, more);
    const answer = await castNow().call(who, 'POST', '/api/consents', body);
    expect([answer.status, answer.body.code]).toEqual([201, undefined]);
    return String(body.id);
  }
  const withdraw = (who: PersonKey, id: string) => castNow().call(who, 'DELETE', `/api/consents/${id}`);
  function send(who: PersonKey, id: string, more: Record<string, string>): Promise<Answer> {
    const query = new URLSearchParams({ binId: BINS.tote, takenAt: '2026-11-25T09:30:00Z', kind: 'bin', ...more });
    return castNow().call(who, 'PUT', `/api/photos/${id}?${query}`, SMALL_JPEG, { 'content-type': 'image/jpeg' });
  }
  /** By a coordinator, who says who is in it. */
  async function sendOf(...personIds: string[]): Promise<string> {
    const id = freshId();
    expect((await send('coordinator', id, { people: 'some', personIds: personIds.join() })).status).toBe(201);
    return id;
  }
  return { give, withdraw, send, sendOf };
}
