import { existsSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { makeDemo } from '../../../seed/index.ts';
import { buildApp } from './app.ts';
import { type Config, readConfig } from './config.ts';
import { systemClock } from './context.ts';
import { findProgramme } from './db/repositories/programme.ts';
import type { Store } from './db/store.ts';
import type { MailServer } from './mail-server.ts';
import { photoDirOf, sweep } from './photos/shelf.ts';
import { projectRoot } from './root.ts';
import { isOldDemo } from './services/demo-age.ts';
import { keeperOf } from './services/keeper.ts';
import { mailerOf } from './services/mail/mailer.ts';
import { smtpSender } from './services/mail/sender.ts';
import { keepTelling } from './services/messages/keep-telling.ts';
import { startOutlooks } from './services/outlook-start.ts';
import { roomOf } from './services/room.ts';
import { newSetupCode } from './services/setup-code.ts';
import { soundnessOf } from './services/soundness.ts';
import { keepListsMoving } from './services/waiting.ts';
import { backupDirOf, cacheFileOf, ensureDataDir, fileOf, openDataFile } from './start/data-dir.ts';
import { ensureDemo } from './start/demonstration.ts';
import { lockDataDir } from './start/lock.ts';
import { type Running, stop, stopOnSignals } from './start/stop.ts';
import { StartRefusal } from './start-refusal.ts';
import { mountWeb } from './web/mount.ts';

const migrationsDir = join(projectRoot, 'migrations');
const webBuildDir = join(projectRoot, 'apps/web/build');
const say = (text: string) => console.log(`middenry: ${text}`);

/** Opens everything in the order in which it may be refused, and prints the address last. */
async function start(config: Config): Promise<Running> {
  ensureDataDir(config);
  const lock = lockDataDir(config.dataDir);
  if (!config.own) await showDemo(config);
  const store = openDataFile(config, migrationsDir, systemClock.now());
  sweep(store, photoDirOf(config));
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
    soundness,
  });
  const renewDemo = config.own ? undefined : () => void startAnew(config).catch(giveUp);
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
  if (config.mail !== undefined) sendMail(app, store, config, config.mail);
  startOutlooks(app, store, systemClock, cacheFileOf(config));
  await listen(app, config);
  keeper.start();
  if (isOldDemo(store, systemClock.now()))
    say('this demonstration is older than three days: its pages offer to make it anew, and so does a start with --renew-demo');
  if (setup !== undefined) say(`setup code ${setup.words}, good once and for one hour: type it in at the address below`);
  say(`${config.publicUrl ?? addressOf(app)}`);
  return { app, store, lock };
}

let running: Running | undefined;

/** Ends the old demonstration in order and puts a new one behind the same address. */
async function startAnew(config: Config): Promise<void> {
  if (running === undefined) return;
  const old = running;
  running = undefined;
  const { port } = old.app.server.address() as AddressInfo;
  say('making the demonstration anew');
  await stop(old);
  running = await start({ ...config, port, renewDemo: true });
}

function sendMail(app: FastifyInstance, store: Store, { publicUrl }: Config, server: MailServer): void {
  const mailer = mailerOf({ store, clock: systemClock, sender: smtpSender(server), from: server.from, publicUrl });
  mailer.start();
  app.addHook('onClose', async () => mailer.stop());
}

async function showDemo(config: Config): Promise<void> {
  const began = performance.now();
  if (await ensureDemo(config, migrationsDir, systemClock.now(), makeDemo))
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

function giveUp(error: unknown): never {
  // A refusal is one plain sentence; anything else is a fault of ours and keeps its stack.
  console.error(error instanceof StartRefusal ? `middenry: ${error.message}` : error);
  process.exit(error instanceof StartRefusal ? error.exitCode : 1);
}

stopOnSignals(() => running);
try {
  running = await start(readConfig(process.env, process.argv.slice(2)));
} catch (error) {
  giveUp(error);
}
