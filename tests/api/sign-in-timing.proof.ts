/** E6: nobody learns from how long a refusal takes whether an account exists (OWASP ASVS 5.0, 6.3.8). */
import { expect, test } from 'vitest';
import { later, openCast, PASSWORD } from '../cast.ts';

const TRIES = 200;
const ALIKE_MS = 50;
/** Longer than the longest wait between two tries. */
const APART_MIN = 61;

const medianOf = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

test(`E6: ${TRIES} wrong sign-ins take as long for known and unknown accounts`, async () => {
  const cast = await openCast();
  const took: Record<'known' | 'unknown', number[]> = { known: [], unknown: [] };
  const words = new Set<string>();
  await cast.call('owner', 'PUT', '/api/password', { password: PASSWORD });
  for (let at = 0; at < TRIES; at += 1) {
    for (const who of ['known', 'unknown'] as const) {
      // After a hundred failures an account is shut; a success before that begins the count anew.
      if (at % 50 === 0) cast.store.sqlite.exec('DELETE FROM sign_in_try');
      const email = who === 'known' ? 'ingrid@example.org' : 'nobody@example.org';
      const began = performance.now();
      const answer = await cast.call(null, 'POST', '/api/session', { email, password: 'not the password at all' });
      took[who].push(performance.now() - began);
      words.add(`${answer.status} ${answer.body.code} ${answer.body.detail}`);
    }
    later(cast, APART_MIN);
  }
  await cast.close();
  console.log(`E6: medians ${medianOf(took.known).toFixed(1)} ms known, ${medianOf(took.unknown).toFixed(1)} ms unknown`);
  expect(words.size).toBe(1);
  expect(Math.abs(medianOf(took.known) - medianOf(took.unknown))).toBeLessThanOrEqual(ALIKE_MS);
  expect(medianOf(took.unknown)).toBeGreaterThan(medianOf(took.known) / 2);
}, 120_000);
