// `npm start`: installs and builds what is missing, then becomes the one server process.
// It is the same process, not a child: a signal or a kill reaches the server itself and nothing is left behind.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ensureBuilt } from './build.mjs';
import { ensureInstalled } from './install.mjs';
import { main, root, Sorry } from './lib.mjs';

/**
 * npm answers a SIGTERM by ending the shell between it and us, and tells us nothing. We then have a new parent:
 * that is the sign to stop in order, or the server would live on unseen and keep its data folder locked.
 */
function stopWithNpm() {
  const parent = process.ppid;
  const watch = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(watch);
    process.kill(process.pid, 'SIGTERM');
  }, 200);
  watch.unref();
  // Ctrl-C reaches us and npm alike; a second signal from here would cut the orderly stop short.
  const asked = (signal) => {
    clearInterval(watch);
    if (process.listenerCount(signal) === 1) process.exit(signal === 'SIGINT' ? 130 : 143);
  };
  process.on('SIGINT', asked);
  process.on('SIGTERM', asked);
}

await main(async () => {
  if (process.env.npm_lifecycle_event === 'start') stopWithNpm();
  await ensureInstalled();
  await ensureBuilt();
  const server = join(root, 'apps/api/build/server.mjs');
  if (!existsSync(server))
    throw new Sorry('There is no server to start.', { why: 'apps/api/src/server.ts is missing', next: 'git status' });
  process.env.NODE_ENV ??= 'production';
  process.argv = [process.argv[0], server, ...process.argv.slice(2)];
  await import(pathToFileURL(server).href);
});
