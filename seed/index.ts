import type { FastifyInstance } from 'fastify';
import type { MovableClock } from '../apps/api/src/context.ts';

/** Who can enter the demonstration and one site; the bins and their log are still to come. */
export async function makeDemo(app: FastifyInstance, _options: { readonly clock: MovableClock }): Promise<void> {
  const ownerId = '0192f000-0000-7000-8000-000000000001';
  await app.middenry.begin({
    programme: { id: '0192f000-0000-7000-8000-000000000009', name: 'Demonstration', isDemo: true, timeZone: 'Europe/London' },
    coordinator: { id: ownerId, name: 'Ingrid Halloway' },
  });
  const headers = { cookie: app.middenry.cookieOf(ownerId), 'content-type': 'application/json' };
  const volunteer = { id: '0192f000-0000-7000-8000-000000000004', name: 'Otis Barrow', role: 'volunteer' };
  await app.inject({ method: 'POST', url: '/api/people', headers, payload: volunteer });
}
