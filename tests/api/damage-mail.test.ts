/** The mail about a damaged store, which goes out though nothing may be written into it (criteria F11, F31). */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, expect, test } from 'vitest';
import { damageMailOf } from '../../apps/api/src/services/mail/damage-mail.ts';
import { smtpSender } from '../../apps/api/src/services/mail/sender.ts';
import { soundnessOf } from '../../apps/api/src/services/soundness.ts';
import { later, PEOPLE } from '../cast.ts';
import { FROM, mailStage } from './mail-stage.ts';

const stage = mailStage();
const file = () => join(stage.cast.dir, 'cast.db');
const noteFile = () => `${file()}.damage-told`;
/** As a server that has just started has it. */
const started = (soundness = stage.cast.app.middenry.soundness!) => {
  const { store, clock } = stage.cast;
  return damageMailOf({ store, clock, soundness, sender: smtpSender(stage.cast.app.middenry.config.mail!), from: FROM });
};
const rows = () => stage.cast.store.sqlite.prepare('SELECT (SELECT count(*) FROM mail), (SELECT count(*) FROM message)').raw().get();
beforeEach(async () => {
  await stage.giveAddress('coordinator', 'cora@example.org');
  await stage.giveAddress('owner', 'ingrid@example.org');
  await stage.giveAddress('volunteer', 'otis@example.org');
  stage.cast.store.sqlite.prepare("UPDATE message_setting SET language = 'es' WHERE person_id = ?").run(PEOPLE.owner.id);
  stage.sink.mails.length = 0;
  await stage.cast.app.middenry.keeper!.look();
});

test('F11: each coordinator gets one mail in their language, nothing of it is written into the store, and a restart does not say it again', async () => {
  const mail = started();
  expect(await mail.look()).toBe(0);
  stage.cast.app.middenry.soundness!.found('integrity check says: row 3 missing from index entry_bin');
  const before = rows();
  expect(await mail.look()).toBe(2);
  expect(rows()).toEqual(before);
  const mails = [...stage.sink.mails].sort((a, b) => (a.to < b.to ? -1 : 1));
  expect(mails.map(({ to }) => to)).toEqual(['cora@example.org', 'ingrid@example.org']);
  expect(mails[0]!.body).toMatch(/store of Two Gardens is damaged.*2026-11-25 10:00[\s\S]*own-2026.*\.db/);
  expect(mails[1]!.body).toContain('están dañados');
  expect(await mail.look()).toBe(0);
  expect(await started().look()).toBe(0);
  expect(JSON.parse(readFileSync(noteFile(), 'utf8')).people.sort()).toEqual([PEOPLE.owner.id, PEOPLE.coordinator.id].sort());
});

test('F11: a mail server that is away is asked again, and whoever has the mail is not told twice', async () => {
  const mail = started();
  await mail.look();
  stage.cast.app.middenry.soundness!.found('damaged');
  stage.sink.manner = 'busy';
  expect(await mail.look()).toBe(0);
  stage.sink.manner = 'take';
  stage.sink.badAddress = 'ingrid@example.org';
  expect(await mail.look()).toBe(1);
  stage.sink.badAddress = null;
  expect(await mail.look()).toBe(0);
  expect(stage.sink.mails.map(({ to }) => to)).toEqual(['cora@example.org']);
});

test('F11: of a store that cannot be read any more, whoever was known while it was sound is told', async () => {
  const mail = started();
  await mail.look();
  stage.cast.app.middenry.soundness!.found('file is not a database');
  stage.cast.store.sqlite.exec('DELETE FROM message_setting');
  expect(await mail.look()).toBe(2);
});

test('F11: once a check has found the store sound, the next damage is told anew', async () => {
  writeFileSync(noteFile(), JSON.stringify({ since: stage.cast.clock.at.toISOString(), people: [PEOPLE.coordinator.id, PEOPLE.owner.id] }));
  later(stage.cast, 90);
  const { clock, dir } = stage.cast;
  const soundness = soundnessOf({ clock, file: file(), backupDir: join(dir, 'backups'), name: 'own' });
  const mail = started(soundness);
  await mail.look();
  expect(existsSync(noteFile())).toBe(true);
  await soundness.look();
  await mail.look();
  expect(existsSync(noteFile())).toBe(false);
  soundness.found('damaged again');
  expect(await mail.look()).toBe(2);
});
