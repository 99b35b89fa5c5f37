/** A programme whose mail goes to a server on this machine, anew for each test of a file. */
import { afterAll, afterEach, beforeAll, beforeEach, expect } from 'vitest';
import { mailerOf } from '../../apps/api/src/services/mail/mailer.ts';
import { smtpSender } from '../../apps/api/src/services/mail/sender.ts';
import { type Cast, freshId, openCast, type PersonKey, SITES } from '../cast.ts';
import { openSink, type Sink } from './mail-sink.ts';

export const FROM = 'bins@gardens.example';
const START = '2026-11-25T10:00:00.000Z';

export function mailStage() {
  let sink: Sink;
  let cast: Cast;
  beforeAll(async () => {
    sink = await openSink();
  });
  beforeEach(async () => {
    sink.mails.length = 0;
    sink.manner = 'take';
    sink.badAddress = null;
    cast = await openCast({ at: START, env: { SMTP_URL: sink.url, MAIL_FROM: FROM, PUBLIC_URL: 'https://bins.example' } });
  });
  afterEach(() => cast.close());
  afterAll(() => sink.close());

  const mailer = (silenceMs?: number) => {
    const { mail, publicUrl } = cast.app.middenry.config;
    return mailerOf({ store: cast.store, clock: cast.clock, sender: smtpSender(mail!, silenceMs), from: FROM, publicUrl });
  };
  const call = (who: PersonKey | null, method: string, url: string, body?: unknown) => cast.call(who, method, url, body);

  /** Gives somebody an address the way they do it themselves: by the code in the mail. */
  async function giveAddress(who: PersonKey, address: string): Promise<void> {
    await call(who, 'PUT', '/api/message-setting/address', { address });
    await mailer().look();
    const code = /code is (\d{6})/.exec(sink.mails.at(-1)!.body)![1];
    const answer = await call(who, 'POST', '/api/message-setting/address/confirm', { code });
    expect(answer.body).toMatchObject({ address, confirmed: true, mail: true });
    sink.mails.length = 0;
  }

  async function makeShift(localDate: string, localTime = '10:00', places = 3): Promise<string> {
    const id = freshId();
    await call('coordinator', 'POST', '/api/shifts', {
      id,
      siteId: SITES.meadow,
      title: 'Round',
      localDate,
      localTime,
      minutes: 60,
      places,
    });
    return id;
  }
  const take = (who: PersonKey, shiftId: string) => call(who, 'POST', `/api/shifts/${shiftId}/sign-ups`, { id: freshId() });
  const frame = () => cast.app.middenry;
  const states = () =>
    cast.store.sqlite.prepare("SELECT state, count(*) AS n FROM mail WHERE kind = 'message' GROUP BY state ORDER BY state").all();
  return {
    get sink() {
      return sink;
    },
    get cast() {
      return cast;
    },
    ...{ mailer, call, giveAddress, makeShift, take, frame, states },
  };
}
