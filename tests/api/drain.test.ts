import { once } from 'node:events';
import { connect } from 'node:net';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type Cast, openCast } from '../cast.ts';

let cast: Cast;
beforeEach(async () => {
  cast = await openCast();
});
afterEach(() => cast.close());

const LONGER_THAN_ANY_TEST_MS = 3_600_000;

test('F23: a stop does not wait for a request whose phone went away in the middle of it', async () => {
  const address = new URL(await cast.app.listen({ host: '127.0.0.1', port: 0 }));
  const phone = connect({ host: address.hostname, port: Number(address.port) });
  const head = ['POST /api/feedings HTTP/1.1', `host: ${address.host}`, `cookie: ${cast.cookie('volunteer')}`];
  phone.write(`${[...head, 'content-type: application/json', 'content-length: 500'].join('\r\n')}\r\n\r\n{"id":`);
  await once(cast.app.server, 'request');
  phone.destroy();
  await once(phone, 'close');
  // Were it still counted, this would wait until the test is given up.
  await cast.app.drain.stop(LONGER_THAN_ANY_TEST_MS);
  expect((await cast.call(null, 'GET', '/api/session')).status).toBe(503);
});
