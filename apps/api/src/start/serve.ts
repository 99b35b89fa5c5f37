/** Everything that a server is made of; server.ts reads it in only once it knows that this one may start. */
import { existsSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { buildApp } from '../app.ts';
import type { Config } from '../config.ts';
import { systemClock } from '../context.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import type { Store } from '../db/store.ts';
import type { MailServer } from '../mail-server.ts';
import { photoDirOf, sweep } from '../photos/shelf.ts';
import { projectRoot } from '../root.ts';
import { endSending } from '../services/bring-back/desk.ts';
import { isOldDemo } from '../services/demo-age.ts';
import { keeperOf } from '../services/keeper.ts';
import { damageMailOf } from '../services/mail/damage-mail.ts';
import { mailerOf } from '../services/mail/mailer.ts';
import { keepTelling } from '../services/messages/keep-telling.ts';
import { startOutlooks } from '../services/outlook-start.ts';
import { roomOf } from '../services/room.ts';
import { newSetupCode } from '../services/setup-code.ts';
import { type Soundness, soundnessOf } from '../services/soundness.ts';
import { keepListsMoving } from '../services/waiting.ts';
import { StartRefusal } from '../start-refusal.ts';
import { mountWeb } from '../web/mount.ts';
import { backupDirOf, cacheFileOf, fileOf, openDataFile } from './data-dir.ts';
import { ensureDemo, type MakeDemo } from './demonstration.ts';
import type { Lock } from './lock.ts';
import type { Running } from './stop.ts';

const migrationsDir = join(projectRoot, 'migrations');
const webBuildDir = join(projectRoot, 'apps/web/build');
const say = (text: string) => console.log(`middenry: ${text}`);

interface Begun {
  readonly config: Config;
  readonly lock: Lock;
  readonly makeDemo: MakeDemo;
  /** Ends this demonstration and puts a new one in its place. */
  readonly renewDemo: () => void;
}

/** Opens everything in the order in which it may be refused, and prints the address last. */
export async function serve({ config, lock, ...begun }: Begun): Promise<Running> {
  if (!config.own) await showDemo(config, begun.makeDemo);
  const store = openDataFile(config, migrationsDir, systemClock.now());
  sweep(store, photoDirOf(config));
  // What was being sent when the last process ended has to be sent again.
  endSending(store);
  const setup = config.own && findProgramme(store) === undefined ? newSetupCode(systemClock) : undefined;
  const soundness = soundnessOf({
    clock: systemClock,
    file: fileOf(config),
    backupDir: backupDirOf(config),
    name: config.own ? 'own' : 'demo',
  });
  const keeper = keeperOf({
    store,
    clock: systemClock,
    file: fileOf(config),
    dir: backupDirOf(config),
    name: config.own ? 'own' : 'demo',
    photoDir: photoDirOf(config),
    migrationsDir,
    hourly: config.own,
    uptimeMs: () => performance.now(),
    soundness,
  });
  const renewDemo = config.own ? undefined : begun.renewDemo;
  const room = roomOf(config.dataDir);
  const app = await buildApp({
    store,
    clock: systemClock,
    config,
    log: process.stdout,
    setupCode: setup?.code,
    keeper,
    room,
    soundness,
    renewDemo,
  });
  app.addHook('onClose', async () => keeper.stop());
  if (existsSync(webBuildDir)) await mountWeb(app, { buildDir: webBuildDir, publicUrl: config.publicUrl, offline: config.offline });
  else say('the pages are not built, so only the API is served');
  const stops = [keepListsMoving(store, systemClock), keepTelling(app.middenry)];
  app.addHook('onClose', async () => {
    for (const stopOne of stops) stopOne();
  });
  if (config.mail !== undefined) await sendMail(app, { store, soundness }, config, config.mail);
  startOutlooks(app, store, systemClock, cacheFileOf(config));
  await listen(app, config);
  keeper.start();
  if (isOldDemo(store, systemClock.now()))
    say('this demonstration is older than three days: its pages offer to make it anew, and so does a start with --renew-demo');
  if (setup !== undefined) say(`setup code ${setup.words}, good once and for one hour: type it in at the address below`);
  say(`${config.publicUrl ?? addressOf(app)}`);
  return { app, store, lock };
}

interface Kept {
  readonly store: Store;
  readonly soundness: Soundness;
}

async function sendMail(app: FastifyInstance, { store, soundness }: Kept, { publicUrl }: Config, server: MailServer): Promise<void> {
  const { smtpSender } = await import('../services/mail/sender.ts');
  const sender = smtpSender(server);
  const both = [
    mailerOf({ store, clock: systemClock, sender, from: server.from, publicUrl }),
    damageMailOf({ store, clock: systemClock, soundness, sender, from: server.from }),
  ];
  for (const one of both) one.start();
  app.addHook('onClose', async () => {
    for (const one of both) one.stop();
  });
}

async function showDemo(config: Config, makeDemo: MakeDemo): Promise<void> {
  const began = performance.now();
  const told: MakeDemo = (...asked) => {
    say('making the demonstration; this takes about half a minute');
    return makeDemo(...asked);
  };
  if (await ensureDemo(config, migrationsDir, systemClock.now(), told))
    say(`made the demonstration in ${((performance.now() - began) / 1000).toFixed(1)} s; its people and figures are invented`);
}

async function listen(app: FastifyInstance, config: Config): Promise<void> {
  try {
    await app.listen({ port: config.port, host: config.host });
  } catch (error) {
    const { code } = error as { code?: string };
    if (code === 'EADDRINUSE')
      throw new StartRefusal(`Cannot listen on port ${config.port} as something else does: set PORT to another one.`);
    if (code === 'EACCES' || code === 'EADDRNOTAVAIL')
      throw new StartRefusal(`Cannot listen on ${config.host} port ${config.port} (${code}): set HOST or PORT to another one.`);
    throw error;
  }
}

function addressOf(app: FastifyInstance): string {
  const { address, port, family } = app.server.address() as AddressInfo;
  return `http://${family === 'IPv6' ? `[${address}]` : address}:${port}/`;
}
