/** Mail, calendar and text to copy speak their reader's language; in each they are easy to read (criteria B28). */
import { LANGUAGES } from '@middenry/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { mailerOf } from '../../apps/api/src/services/mail/mailer.ts';
import { smtpSender } from '../../apps/api/src/services/mail/sender.ts';
import type { Words } from '../../apps/api/src/services/words/en.ts';
import { WORDS } from '../../apps/api/src/services/words/languages.ts';
import { LANGUAGES as SPOKEN } from '../../apps/web/src/lib/messages/languages.ts';
import {
  englishSyllables,
  kincaidGrade,
  measure,
  sentencesOf,
  spanishSyllables,
  szigrisztEase,
  wordsOf,
} from '../../apps/web/src/lib/messages/reading.ts';
import { type Cast, freshId, openCast, type PersonKey, SITES } from '../cast.ts';
import { openSink, type Sink, type SinkMail } from './mail-sink.ts';

let sink: Sink;
let cast: Cast;
const FROM = 'bins@gardens.example';
beforeAll(async () => {
  sink = await openSink();
  cast = await openCast({
    at: '2026-11-25T10:00:00.000Z',
    env: { SMTP_URL: sink.url, MAIL_FROM: FROM, PUBLIC_URL: 'https://bins.example' },
  });
});
afterAll(async () => {
  await cast.close();
  await sink.close();
});
const call = (who: PersonKey | null, method: string, url: string, body?: unknown) => cast.call(who, method, url, body);
async function mailed(): Promise<readonly SinkMail[]> {
  sink.mails.length = 0;
  const { mail, publicUrl } = cast.app.middenry.config;
  await mailerOf({ store: cast.store, clock: cast.clock, sender: smtpSender(mail!), from: FROM, publicUrl }).look();
  return sink.mails;
}
async function address(who: PersonKey, to: string): Promise<string> {
  await call(who, 'PUT', '/api/message-setting/address', { address: to });
  const text = (await mailed())[0]!.body;
  await call(who, 'POST', '/api/message-setting/address/confirm', { code: /\d{6}/.exec(text)![0] });
  return text;
}
async function feedOf(who: PersonKey): Promise<string> {
  const { path } = (await call(who, 'POST', '/api/calendar-links', { id: freshId(), label: 'Phone' })).body;
  // Long lines are folded (RFC 5545, section 3.1).
  return (await call(null, 'GET', path)).text.replaceAll('\r\n ', '');
}

describe('the language somebody chose', () => {
  it('is that of a new phone on which nobody has chosen one, and of no other', async () => {
    const spoken = async (who: PersonKey, headers: Record<string, string> = {}) => {
      const { code } = (await call(who, 'POST', '/api/device-codes', {})).body;
      const entered = await cast.call(null, 'POST', '/api/session/device', { code, deviceLabel: 'Phone' }, headers);
      expect(entered.status).toBe(201);
      return [entered.headers['set-cookie']].flat().flatMap((cookie) => /^language=(\w+)/.exec(String(cookie))?.[1] ?? []);
    };
    await call('otherVolunteer', 'PATCH', '/api/message-setting', { language: 'es' });
    expect(await spoken('volunteer')).toEqual([]);
    expect(await spoken('otherVolunteer')).toEqual(['es']);
    expect(await spoken('otherVolunteer', { cookie: 'language=en' })).toEqual([]);
    await call('otherVolunteer', 'PATCH', '/api/message-setting', { language: 'en' });
  });

  it('is the programme’s until then, and one of those that the pages speak', async () => {
    expect((await call('volunteer', 'GET', '/api/message-setting')).body.language).toBe('en');
    expect((await call('volunteer', 'PATCH', '/api/message-setting', { language: 'xx' })).status).toBe(422);
    expect((await call('volunteer', 'PATCH', '/api/message-setting', { language: 'es' })).body.language).toBe('es');
    expect((await call('volunteer', 'PATCH', '/api/message-setting', { remindDay: false })).body.language).toBe('es');
    expect((await call('otherVolunteer', 'GET', '/api/message-setting')).body.language).toBe('en');
    expect([...LANGUAGES].sort()).toEqual(Object.keys(SPOKEN).sort());
  });

  it('is that of their mails and calendar, and nobody else’s; what has not changed keeps its number', async () => {
    expect(await address('volunteer', 'otis@post.example')).toContain('Tu código es');
    expect(await address('otherVolunteer', 'wanda@post.example')).toContain('Your code is');
    const shift = { siteId: SITES.meadow, title: 'Round', localDate: '2026-11-25', localTime: '18:00', minutes: 60, places: 3 };
    const id = freshId();
    await call('coordinator', 'POST', '/api/shifts', { id, ...shift });
    await call('coordinator', 'POST', '/api/shifts', { id: freshId(), ...shift, localDate: '2026-11-28', localTime: '10:00' });
    for (const who of ['volunteer', 'otherVolunteer'] as const) await call(who, 'POST', `/api/shifts/${id}/sign-ups`, { id: freshId() });

    const [spanish, english] = [await feedOf('volunteer'), await feedOf('otherVolunteer')];
    expect(spanish).toContain('X-WR-CALNAME:Turnos de Middenry');
    expect(spanish).toMatch(/SUMMARY:Dar de comer – /);
    expect(spanish).not.toMatch(/Bin feeding|shifts\r/);
    expect(english).toContain('X-WR-CALNAME:Middenry shifts');
    expect(english).toMatch(/SUMMARY:Bin feeding – /);
    expect([spanish, english, await feedOf('volunteer')].map((text) => /SEQUENCE:\d+/.exec(text)![0])).toEqual(Array(3).fill('SEQUENCE:0'));

    const group = async (who: PersonKey) => (await call(who, 'GET', '/api/group-text?days=7')).body.text as string;
    expect(await group('volunteer')).toMatch(/quién puede ayudar esta semana.*sábado 28 de noviembre, 10:00 \(1 hora\): 3 plazas libres/s);
    expect(await group('otherVolunteer')).toMatch(/who can help this week.*Saturday 28 November, 10:00 \(1 hour\): 3 places free/s);

    await call('coordinator', 'DELETE', `/api/shifts/${id}`);
    const mails = (await mailed()).map(({ to, body }) => [to, body] as const);
    expect(mails.map(([to]) => to).sort()).toEqual(['otis@post.example', 'wanda@post.example']);
    const of = new Map(mails);
    expect(of.get('otis@post.example')).toMatch(/^Hola, .*está anulado: miércoles 25 de noviembre, 18:00\..*Mira el turno:/s);
    expect(of.get('wanda@post.example')).toMatch(/^Hello .*is cancelled: Wednesday 25 November, 18:00\..*See the shift:/s);
  });
});

/** Everything that can be said, with something short in its gaps. */
function saidIn(words: Words): string[] {
  const shift = { site: 'Long Meadow', when: 'x', length: words.lengthWords(60) };
  const facts = { by: 'Ana', was: 'x', until: 'x', needsAdult: 2, overdueDuties: 1, openShifts: 3, failedMail: 1, hours: 80 };
  const mails = [
    ...Object.values(words.shiftMails).map((say) => say(shift, facts)),
    ...[words.codeMail('Ana', '1'), words.testMail('Ana'), words.digestMail('Ana', facts), words.lateEntriesMail(facts)],
  ];
  return [...mails.flatMap(({ text }) => text.split('\n')), words.replyHere(''), words.groupHead('Ana', 7), words.groupNothing('Ana', 7)];
}

describe('B28: what the server itself says', () => {
  it.each(LANGUAGES)('in %s is as easy as the pages', (language) => {
    const texts = saidIn(WORDS[language]);
    expect(texts.length).toBeGreaterThan(25);
    expect(texts.flatMap(sentencesOf).filter((sentence) => wordsOf(sentence).length > 15)).toEqual([]);
    // Every language has a measure of its own; a new one needs its own here.
    const isEasy = {
      en: () => kincaidGrade(measure(texts, englishSyllables)) <= 5,
      es: () => szigrisztEase(measure(texts, spanishSyllables)) >= 80,
    };
    expect(isEasy[language]()).toBe(true);
  });
});
